"""Every address of the desk. Whom it is for stands at its view (``doors``); what has no mark is the owner's."""

from django.urls import path

from darby.desk.views import doors, edit, first, history, job, lines, money, people, put_on, signal, sketch

urlpatterns = [
    path("", first.first, name="first"),
    path("sign-in", doors.sign_in, name="sign-in"),
    path("drawing.css", doors.drawing_css, name="drawing-css"),
    path("sign-out", doors.sign_out, name="sign-out"),
    path("in/<str:secret>", doors.by_link, name="by-link"),
    path("here", signal.here, name="here"),
    path("token", signal.token, name="token"),
    path("worker.js", signal.worker, name="worker"),
    path("no-signal", signal.no_signal, name="no-signal"),
    path("trust", signal.trust, name="trust"),
    path("trust/authority.crt", signal.authority, name="authority"),
    path("pocket", signal.pocket, name="pocket"),
    path("me", people.me, name="me"),
    path("look", people.look, name="look"),
    path("people", people.people, name="people"),
    path("people/<int:id>/shut-out", people.shut_out, name="shut-out"),
    path("firm", edit.firm, name="firm"),
    path("new", edit.new, name="new"),
    path("new/<slug:shape>", edit.new, name="new-shape"),
    path("document/<slug:document>/text", edit.text, name="text"),
    path("document/<slug:document>/section/<slug:key>", edit.section, name="section"),
    path("document/<slug:document>/history", history.history, name="history"),
    path("document/<slug:document>/history/<int:number>", history.compare, name="compare"),
    path("document/<slug:document>/back/<int:number>", history.back, name="back"),
    path("job/<slug:document>/", job.job, name="job"),
    path("job/<slug:document>/why", job.why, name="why"),
    path("job/<slug:document>/log", history.log, name="log"),
    path("job/<slug:document>/lines", lines.lines, name="lines"),
    path("job/<slug:document>/photographs", lines.photographs, name="photographs"),
    path("job/<slug:document>/photograph/<slug:sha256>", history.photograph, name="photograph"),
    path("job/<slug:document>/sketch", sketch.wall, name="sketch"),
    path("job/<slug:document>/sketch/line", sketch.line, name="sketch-line"),
    path("job/<slug:document>/sketch/opening", sketch.opening, name="sketch-opening"),
    path("job/<slug:document>/step", sketch.step, name="step"),
    path("job/<slug:document>/paper/<str:name>", job.paper, name="paper"),
    path("job/<slug:document>/quote/send", money.send, name="quote-send"),
    path("job/<slug:document>/quote/sent/<uuid:id>", money.sent, name="quote-sent"),
    path("job/<slug:document>/quote/sheet/<int:number>", money.sheet, name="quote-sheet"),
    path("job/<slug:document>/joints/keep", put_on.joints_keep, name="joints-keep"),
    path("job/<slug:document>/joints/try", put_on.joints_try, name="joints-try"),
    path("job/<slug:document>/<slug:name>/", job.stage, name="stage"),
]

handler404 = "darby.desk.views.doors.not_there"
handler500 = "darby.desk.views.doors.went_wrong"
