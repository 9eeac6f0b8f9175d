// Formulas as they stand in the core's working: names, numbers, + - * /, min, max, ceil. Read once, reckoned often.

const READ = new Map();
const MARKS = /\s*([A-Za-z_][A-Za-z_0-9]*|[0-9.]+|[-+*/(),])/gy;

function marksOf(text) {
  MARKS.lastIndex = 0;
  const marks = [];
  for (let found = MARKS.exec(text); found; found = MARKS.exec(text)) marks.push(found[1]);
  return marks;
}

/** A formula as a function of its names. */
function formula(text) {
  if (!READ.has(text)) {
    const marks = marksOf(text);
    const made = readSum(marks);
    if (marks.length) throw new Error(`no formula: ${text}`);
    READ.set(text, made);
  }
  return READ.get(text);
}

function readSum(marks) {
  let left = readProduct(marks);
  while (marks[0] === "+" || marks[0] === "-") {
    const [does, a, b] = [marks.shift() === "+" ? add : less, left, readProduct(marks)];
    left = (names) => does(a(names), b(names));
  }
  return left;
}

function readProduct(marks) {
  let left = readOne(marks);
  while (marks[0] === "*" || marks[0] === "/") {
    const [does, a, b] = [marks.shift() === "*" ? times : over, left, readOne(marks)];
    left = (names) => does(a(names), b(names));
  }
  return left;
}

const CALLS = {
  ceil: (x) => whole(x),
  min: (...all) => all.reduce((a, b) => (compare(b, a) < 0 ? b : a)),
  max: (...all) => all.reduce((a, b) => (compare(b, a) > 0 ? b : a)),
};

function readOne(marks) {
  const mark = marks.shift();
  if (mark === "-") {
    const inner = readOne(marks);
    return (names) => minus(inner(names));
  }
  if (mark === "(") {
    const inner = readSum(marks);
    marks.shift();
    return inner;
  }
  if (marks[0] === "(") {
    marks.shift();
    const all = [];
    do all.push(readSum(marks));
    while (marks.shift() === ",");
    return (names) => CALLS[mark](...all.map((one) => one(names)));
  }
  if (/^[0-9]/.test(mark)) {
    const value = mark.includes(".") ? Number(mark) : given(mark);
    return () => value;
  }
  return (names) => {
    if (!(mark in names)) throw new Error(`nothing is given for ${mark}`);
    return names[mark];
  };
}

const figuresOf = (figures) => Object.fromEntries(Object.entries(figures).map(([name, x]) => [name, given(x)]));

/** A line of the core: its formula with its figures and what is given here; the result is a float with its unit. */
function line(name, values, unit) {
  const { formula: text, figures, unit: own } = T.lines[name];
  return { value: float(formula(text)({ ...figuresOf(figures), ...values })), unit: unit ?? own };
}
