// What apps and questions show on the page; each widget of on_page.py names its kind.

const QUIET = 500 // ms without a change before a result is announced
const FORGET = 5000 // ms until an announcement is taken away again, so that it is read once
const ROUND = 20 // px: the room for a picture is told in such steps

const unique = () => "quiltmath-" + Math.random().toString(36).slice(2)

function make(tag, attributes = {}, ...children) {
  const node = document.createElement(tag)
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value)
  if (["input", "select", "button", "textarea"].includes(tag)) // arrow keys are the slider's, not JupyterLab's
    node.setAttribute("data-lm-suppress-shortcuts", "true")
  node.append(...children)
  return node
}

// A place that a screen reader reads from once, when nothing has changed for a while.
function announcer() {
  const place = make("div", { class: "quiltmath-announced", role: "status", "aria-atomic": "true" })
  let later
  const say = words => {
    clearTimeout(later)
    later = setTimeout(() => {
      place.textContent = words
      later = setTimeout(() => { place.textContent = "" }, FORGET)
    }, QUIET)
  }
  return [place, say, () => clearTimeout(later)]
}

function app(model, el) {
  const id = unique(), title = model.get("title")
  const rows = model.get("controls").map(control => row(control, id, ask))
  const controls = make("div", { class: "quiltmath-controls", role: "group", "aria-label": title }, ...rows.map(one => one.node))
  const picture = make("div", { class: "quiltmath-picture" })
  const sentence = make("p", { class: "quiltmath-sentence" })
  const [announced, say, quiet] = announcer()
  el.append(controls, picture, sentence, announced)
  let turn = 0, drawn = "", told = null, wide = 0, high = 0

  function ask(name, what) {
    turn += 1
    model.set("asked", { name, ...what, by: id, turn })
    model.save_changes()
  }

  function show() {
    const shown = model.get("shown")
    if (shown.markup !== drawn) picture.innerHTML = drawn = shown.markup
    if (shown.size) {
      high = Math.max(high, wide * shown.size[1] / shown.size[0])
      picture.style.minHeight = `${high}px` // so that nothing below jumps while a slider moves
    }
    sentence.textContent = shown.sentence
    const latest = shown.by !== id || shown.turn === turn // else the answer to what is past already
    for (const one of rows) one.show(shown.values[one.name], shown.wrong[one.name] || "", latest)
    if (told !== null && told !== shown.sentence) say(shown.sentence)
    told = shown.sentence
  }

  function measure() {
    const now = Math.floor(picture.clientWidth / ROUND) * ROUND
    if (!now) return // in a section that is not shown
    const forClass = document.documentElement.dataset.quiltmath === "class"
    const larger = forClass ? 0.4 : 0.15 // how much larger than on a narrow page a picture's words are on a wide one
    const words = 1 + larger * Math.min(1, Math.max(0, (now - 700) / 400))
    const free = forClass ? window.innerHeight - controls.offsetHeight - 180 : 0.78 * window.innerHeight
    const room = [now, Math.round(Math.max(free, now < 700 ? 1.1 * now : 400)), Math.round(100 * words) / 100]
    if (now !== wide) { wide = now; high = 0 }
    if (String(room) === String(model.get("room"))) return
    model.set("room", room)
    model.save_changes()
  }

  let waiting
  const soon = () => { clearTimeout(waiting); waiting = setTimeout(measure, 100) }
  const watch = new ResizeObserver(soon)
  watch.observe(el)
  window.addEventListener("resize", soon)
  model.on("change:shown", show)
  show()
  return () => {
    quiet()
    clearTimeout(waiting)
    watch.disconnect()
    window.removeEventListener("resize", soon)
    model.off("change:shown", show)
  }
}

// One control: its label, a box and a slider or a choice, and below it what is wrong with what was typed.
function row(control, id, ask) {
  const boxId = `${id}-${control.name}`, wrongId = `${boxId}-wrong`
  const wrong = make("p", { class: "quiltmath-wrong", id: wrongId, role: "alert" })
  const label = make("label", { for: boxId }, control.label, " ", make("span", {}, control.range))
  const box = control.stops
    ? make("input", { type: "text", id: boxId, autocomplete: "off", spellcheck: "false" })
    : make("select", { id: boxId }, ...control.options.map(one => make("option", { value: one }, one)))
  const set = make("div", { class: "quiltmath-set" }, box)
  let kept = "", slider
  const typed = () => {
    if (box.value === kept) return
    kept = box.value
    ask(control.name, { text: box.value })
  }
  box.addEventListener("change", typed)
  box.addEventListener("keydown", event => { if (event.key === "Enter") typed() })
  if (control.stops) {
    slider = make("input", { type: "range", min: 0, max: control.stops.length - 1, step: 1, "aria-label": control.label })
    slider.addEventListener("input", () => {
      const stop = control.stops[slider.value]
      box.value = kept = stop.text
      slider.setAttribute("aria-valuetext", stop.spoken)
      ask(control.name, { stop: Number(slider.value) })
    })
    set.append(slider)
  }

  function show(value, words, latest) {
    if (latest && box.value === kept || kept === "") box.value = kept = value.text // not what is just being typed
    if (slider && latest) {
      slider.value = value.stop
      slider.setAttribute("aria-valuetext", value.spoken)
    }
    if (wrong.textContent !== words) wrong.textContent = words
    box.setAttribute("aria-invalid", words ? "true" : "false")
    words ? box.setAttribute("aria-describedby", wrongId) : box.removeAttribute("aria-describedby")
  }

  return { name: control.name, node: make("div", { class: "quiltmath-control" }, label, set, wrong), show }
}

function question(model, el) {
  const id = unique(), choices = model.get("choices"), button = make("button", { type: "submit" }, "Check my answer")
  const reply = make("p", { class: "quiltmath-reply", role: "status", "aria-atomic": "true" })
  const asked = make(choices.length ? "legend" : "p", { class: "quiltmath-words", id: `${id}-words` }, model.get("words"))
  let body
  if (choices.length) {
    const options = choices.map(one => make("label", { class: "quiltmath-choice" },
      make("input", { type: "radio", name: id, value: one }), make("span", {}, one)))
    body = make("fieldset", {}, asked, make("div", { class: "quiltmath-choices" }, ...options),
      make("div", { class: "quiltmath-set" }, button, ...hands(model, `${id}-hands`)))
  } else {
    const label = make("label", { for: `${id}-box` }, model.get("label"))
    const box = make("input", { type: "text", id: `${id}-box`, name: id, placeholder: model.get("example"), autocomplete: "off",
      "aria-describedby": `${id}-words` })
    body = make("div", {}, asked, make("div", { class: "quiltmath-set" }, label, box, button))
  }
  const form = make("form", { class: "quiltmath-question" }, body)
  let turn = 0
  form.addEventListener("submit", event => {
    event.preventDefault()
    model.set("given", { text: new FormData(form).get(id) ?? "", turn: ++turn })
    model.save_changes()
  })
  const show = () => { reply.textContent = model.get("reply") }
  model.on("change:reply", show)
  el.append(form, reply)
  show()
  return () => model.off("change:reply", show)
}

// For a class: how many held up a hand for each choice; kept beside the truth, and no answer.
function hands(model, id) {
  const label = make("label", { for: id }, "A class: hands up for each choice, in order")
  const box = make("input", { type: "text", id, value: model.get("hands"), autocomplete: "off",
    placeholder: model.get("choices").map(() => "0").join(", ") })
  const typed = () => {
    model.set("hands", box.value)
    model.save_changes()
  }
  box.addEventListener("change", typed)
  box.addEventListener("keydown", event => {
    if (event.key !== "Enter") return
    event.preventDefault()
    typed()
  })
  return [label, box]
}

// Lines of cells: a box for each cell of the next line, and below them all lines as text, to paste and to correct.
function lines(model, el) {
  const id = unique(), wrong = make("p", { class: "quiltmath-wrong", id: `${id}-wrong`, role: "alert" })
  const boxes = model.get("cells").map((cell, number) =>
    make("input", { type: "text", id: `${id}-${number}`, autocomplete: "off", spellcheck: "false" }))
  const labels = model.get("cells").map((cell, number) => make("label", { for: `${id}-${number}` }, cell))
  const line = make("form", { class: "quiltmath-line quiltmath-set" },
    ...boxes.map((box, number) => make("div", { class: "quiltmath-cell" }, labels[number], box)),
    make("button", { type: "submit" }, "Add"))
  const text = make("textarea", { id: `${id}-text`, rows: 12, spellcheck: "false" })
  const empty = make("button", { type: "button" }, "Empty the sheet")
  const all = make("details", {}, make("summary", {}, "All lines: paste a table, correct or remove a line"),
    make("label", { for: `${id}-text` }, `A line each: ${model.get("cells").join(", ")}`), text, empty)
  let turn = 0

  line.addEventListener("submit", event => {
    event.preventDefault()
    const next = boxes.findIndex(box => !box.value.trim()), here = boxes.indexOf(document.activeElement)
    if (here >= 0 && next > here && next < model.get("usual")) { // Enter goes on to what is still missing
      boxes[next].focus()
      return
    }
    model.set("given", { cells: boxes.map(box => box.value), turn: ++turn })
    model.save_changes()
  })
  const write = words => {
    model.set("text", words)
    model.save_changes()
  }
  text.addEventListener("change", () => write(text.value))
  text.addEventListener("paste", () => setTimeout(() => write(text.value)))
  empty.addEventListener("click", () => {
    write("")
    boxes[0].focus()
  })

  const added = () => {
    for (const box of boxes) box.value = ""
    boxes[0].focus()
  }
  const refused = () => {
    wrong.textContent = model.get("wrong")
    for (const box of boxes) {
      box.setAttribute("aria-invalid", wrong.textContent ? "true" : "false")
      box.setAttribute("aria-describedby", wrong.id)
    }
  }
  const show = () => { if (text.value !== model.get("text")) text.value = model.get("text") }
  const heard = { "change:text": show, "change:added": added, "change:wrong": refused }
  for (const [event, answer] of Object.entries(heard)) model.on(event, answer)
  el.append(line, wrong, all)
  show()
  return () => { for (const [event, answer] of Object.entries(heard)) model.off(event, answer) }
}

function status(model, el) {
  const place = make("div", { class: "quiltmath-reply", role: "status", "aria-atomic": "true" })
  const show = () => { place.innerHTML = model.get("value") }
  model.on("change:value", show)
  el.append(place)
  show()
  return () => model.off("change:value", show)
}

const KINDS = { app, question, lines, status }

export default {
  render({ model, el }) {
    el.classList.add("quiltmath")
    return KINDS[model.get("kind")](model, el)
  },
}
