// Sentences in two languages, with their values.

const sentence = (code) => T.words[state.language][code];
const named = (word, one = false) => {
  const words = T.words[state.language];
  return (one && words[`unit.1 ${word}`]) || (words[`unit.${word}`] ?? word);
};

/** The sentence of a code with its values; a code without a sentence shows itself. */
function say(code, values = {}) {
  const text = (sentence(code) ?? code).replace(/\{([a-z_]+)\}/g, (all, name) => (name in values ? written(values[name]) : all));
  return text.replace(/([^.])\.\.(?!\.)/g, "$1.");
}

/** One value: a quantity, a span, a word. */
function written(value) {
  if (!Array.isArray(value)) {
    const text = String(value);
    if (text.startsWith("word:")) return say(text.slice("word:".length));
    return sentence(`word.${text}`) ?? text;
  }
  const unit = value[value.length - 1];
  const [first, second] = value.slice(0, value.length - 1).map(given);
  return second === undefined ? shown(first, unit) : between(first, second, unit);
}

const quantity = ({ value, unit }, places) => shown(value, unit, places);
const inches = (value) => shown(given(value), "in");
const noteText = ([code, grade, values]) => (grade === "stop" ? `${say("cli.stop")} ` : "") + say(code, values);

/** A date in words. */
function dateText(day) {
  return say("date.long", {
    weekday: `word:date.weekday.${T.weekdays[day.getUTCDay()]}`,
    month: `word:date.month.${day.getUTCMonth() + 1}`,
    day: `${day.getUTCDate()}`,
  });
}

const isoDay = (day) => day.toISOString().slice(0, "0000-00-00".length);

// --- questions --------------------------------------------------------------------------------------

const plainWords = (text) => text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f]/g, "").match(/[a-z0-9/]+/g) ?? [];
const STEMS = new Map();

function stemsOf(question) {
  if (!STEMS.has(question)) STEMS.set(question, new Set(plainWords([question.asked, question.also, ...question.told.flatMap(([, texts]) => texts)].join(" "))));
  return STEMS.get(question);
}

/** Text of a question in the system of the sheet: "{1/2 in.|13 mm}". */
const inSystem = (text) => text.replace(/\{([^|}]*)\|([^}]*)\}/g, (all, us, metric) => (state.system === "metric" ? metric : us));

/** Questions that share most words with what was typed, best first; all of them where nothing was. */
function questionsFor(text) {
  const all = T.questions[state.language] ?? [];
  const typed = plainWords(text).filter((word) => !T.idle[state.language].includes(word));
  if (!typed.length) return text.trim() ? [] : all;
  const score = (question) => {
    const titles = plainWords(question.asked + " " + question.also);
    return typed.reduce((many, word) => {
      const alike = (other) => other.startsWith(word) || (word.startsWith(other) && other.length > 2);
      return many + (titles.some(alike) ? 2 : [...stemsOf(question)].some(alike) ? 1 : 0);
    }, 0);
  };
  return all
    .map((question) => [score(question), question])
    .filter(([many]) => many)
    .sort(([a], [b]) => b - a)
    .map(([, question]) => question);
}
