// What apps and questions show on the page; each widget of on_page.py names its kind.

const QUIET = 500 // ms without a change before a result is announced
const FORGET = 5000 // ms until an announcement is taken away again, so that it is read once
const ROUND = 20 // px: the room for a picture is told in such steps
const REST = 80 // ms without a change before what may come next is drawn ahead
const AHEAD = [1, -1, 2, -2, 3, 4, 5] // stops further, the way the slider went last
const KEPT = 20 // pictures drawn ahead
const ASIDE = 1.25 // how much larger the words of a picture are beside the words of a page for a class
const BAR = 96 // px: the bar of a page for a class, and room above it
const FINEST = 5 // px a pointer goes from stop to stop, however near each other they lie on the picture

// Words in which no line ends within a number, or between it and its unit.
const unbroken = words => words.replace(/(?<=\d) (?=\d+\/\d)|(?<=\d) (?=(?:in|yd|cm|mm|m)\b|%)/g, "\u00a0")

const unique = () => "quiltmath-" + Math.random().toString(36).slice(2)

function make(tag, attributes = {}, ...children) {
  const node = document.createElement(tag)
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value)
  if (["input", "select", "button", "textarea"].includes(tag)) // arrow keys are the slider's, not JupyterLab's
    node.setAttribute("data-lm-suppress-shortcuts", "true")
  node.append(...children)
  return node
}

// What Enter does in a box: said here, since JupyterLab keeps a form from being sent by it.
function onEnter(box, act) {
  box.addEventListener("keydown", event => {
    if (event.key !== "Enter" || event.isComposing) return
    event.preventDefault()
    act()
  })
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

// What was drawn ahead, by what it was drawn for: the pictures that were drawn or used last.
function album() {
  const pictures = new Map()
  const put = (key, drawn) => {
    pictures.delete(key)
    pictures.set(key, drawn)
    if (pictures.size > KEPT) pictures.delete(pictures.keys().next().value)
  }
  const take = key => {
    const drawn = pictures.get(key)
    if (drawn) put(key, drawn)
    return drawn
  }
  return { put, take, has: key => pictures.has(key), clear: () => pictures.clear() }
}

function app(model, el) {
  const id = unique(), title = model.get("title")
  const rows = model.get("controls").map(control => row(control, id, ask, rest))
  const controls = make("div", { class: "quiltmath-controls", role: "group", "aria-label": title }, ...rows.map(one => one.node))
  const picture = make("div", { class: "quiltmath-picture" })
  const sentence = make("p", { class: "quiltmath-sentence" })
  const [announced, say, quiet] = announcer()
  const handles = make("div", { class: "quiltmath-handles", "aria-hidden": "true" }) // the sliders are there for everybody
  el.append(controls, make("div", { class: "quiltmath-place" }, picture, handles), sentence, announced)
  let turn = 0, pictured = 0, drawn = null, wide = 0, high = 0 // pictured: the turn whose picture is shown
  let told = 0 // px: the most that a sentence was high
  let untold = null // what the app has yet to be asked
  const ahead = album(), held = []
  let resting, wanted = [], awaited = "" // what is to be drawn ahead, and what of it was asked for

  // What is drawn when one control is moved to `text` and all others stay.
  const drawnFor = (name, text) => ({
    values: Object.fromEntries(rows.map(one => [one.name, one.name === name ? text : one.text()])),
    room: model.get("room"),
  })

  function ask(name, what) {
    tell()
    turn += 1
    untold = { name, ...what, by: id, turn }
    const known = ahead.take(JSON.stringify(drawnFor()))
    if (known) {
      draw(known)
      pictured = turn
      requestAnimationFrame(() => setTimeout(tell)) // once it is painted: the answer is there already
    } else tell()
    held.forEach(one => one.place())
    clearTimeout(resting)
    wanted = []
  }

  function tell() {
    if (untold === null) return
    model.set("asked", untold)
    untold = null
    model.save_changes()
  }

  // Once a slider rests, what it may be moved to next is drawn, one picture after the other, until it is moved.
  function rest(moved) {
    clearTimeout(resting)
    resting = setTimeout(() => {
      const shown = model.get("shown")
      if (!shown.quick || shown.by === id && shown.turn !== turn) return // the answer to what was asked comes first
      wanted = moved.next().map(text => drawnFor(moved.name, text)).filter(one => !ahead.has(JSON.stringify(one)))
      drawNext()
    }, REST)
  }

  function drawNext() {
    const one = wanted.shift()
    if (!one) return
    awaited = JSON.stringify(one)
    model.send(one)
  }

  function drawnAhead({ wanted: one, ...drawn }) {
    const key = JSON.stringify(one)
    if (drawn.markup) ahead.put(key, drawn)
    if (drawn.quick === false) wanted = []
    if (key === awaited) drawNext()
  }

  function draw(shown) {
    if (shown.markup !== drawn?.markup) picture.innerHTML = shown.markup
    if (shown.size) {
      high = Math.max(high, wide * shown.size[1] / shown.size[0])
      picture.style.minHeight = `${high}px` // so that nothing below jumps while a slider moves
    }
    hold(shown)
    if (shown.sentence !== drawn?.sentence) sentence.textContent = unbroken(shown.sentence)
    if (drawn !== null && shown.sentence !== drawn.sentence) say(shown.sentence)
    drawn = shown
  }

  // The handles of a picture, each on the page as long as the pictures have it, so that a pointer does not lose it.
  function hold(shown) {
    handles.style.aspectRatio = shown.size?.join(" / ")
    while (held.length > shown.handles.length) held.pop().node.remove()
    shown.handles.forEach(([name, spots], index) => {
      if (index === held.length) {
        held.push(handle(handles))
        handles.append(held[index].node)
      }
      held[index].hold(rows.find(one => one.name === name), spots, shown.size)
    })
  }

  function show() {
    const shown = model.get("shown"), own = shown.by === id
    if (own && shown.turn < pictured) return // what is shown was asked for later
    const anew = own && shown.turn === pictured && shown.markup !== drawn.markup
    if (anew) ahead.clear() // all is arranged anew
    if (anew || !own) high = 0 // no slider moved it: it may be lower than it was
    pictured = own ? shown.turn : turn
    const latest = !own || shown.turn === turn // else the answer to what is past already
    for (const one of rows) one.show(shown.values[one.name], shown.wrong[one.name] || "", latest)
    draw(shown)
    const moved = rows.find(one => one.name === model.get("asked").name)
    if (own && latest && moved) rest(moved)
  }

  // The height beside the words of a page for a class: its section fills the window with it, or it fills it alone.
  function asideRoom() {
    const all = el.closest("#rendered_cells > *").getBoundingClientRect(), app = el.parentElement.getBoundingClientRect()
    const own = el.nextElementSibling?.offsetHeight ?? 0, more = app.top - all.top + all.bottom - app.bottom
    return Math.round(window.innerHeight - own - (more < window.innerHeight / 2 ? more : BAR) - 12)
  }

  function measure() {
    const now = Math.floor(picture.clientWidth / ROUND) * ROUND
    if (!now) return // in a section that is not shown
    const forClass = document.documentElement.dataset.quiltmath === "class"
    const larger = forClass ? 0.4 : 0.15 // how much larger than on a narrow page a picture's words are on a wide one
    const words = 1 + larger * Math.min(1, Math.max(0, (now - 700) / 400))
    told = Math.max(now === wide ? told : 0, sentence.offsetHeight)
    const beside = getComputedStyle(el).getPropertyValue("--quiltmath-beside") // words, so that all is to be in sight
    const around = controls.offsetHeight + (beside ? Math.max(200, told + 185) : 200)
    const free = forClass ? window.innerHeight - around : 0.78 * window.innerHeight
    const least = now < 500 ? 1.8 * now : now < 700 ? 1.1 * now : 400 // on a phone a page is scrolled anyway
    const room = getComputedStyle(el).display === "grid" ? [now, Math.max(asideRoom(), least), ASIDE]
      : [now, Math.round(Math.max(free, least)), Math.round(100 * words) / 100]
    if (now !== wide) { wide = now; high = 0 }
    if (String(room) === String(model.get("room"))) return
    ahead.clear()
    model.set("room", room)
    model.save_changes()
  }

  let waiting
  const soon = () => { clearTimeout(waiting); waiting = setTimeout(measure, 100) }
  const watch = new ResizeObserver(soon)
  watch.observe(el)
  window.addEventListener("resize", soon)
  model.on("change:shown", show)
  model.on("msg:custom", drawnAhead)
  show()
  return () => {
    quiet()
    tell()
    clearTimeout(waiting)
    clearTimeout(resting)
    watch.disconnect()
    window.removeEventListener("resize", soon)
    model.off("change:shown", show)
    model.off("msg:custom", drawnAhead)
  }
}

// What a pointer moves a slider by, on the picture itself; it goes where the nearest stop has its spot.
function handle(page) {
  const node = make("div", { class: "quiltmath-handle" })
  node.innerHTML = "<svg viewBox='-12 -12 24 24'><path d='M-4-5-9 0-4 5M4-5 9 0 4 5'/></svg>"
  let moved, spots, size, taken = null // taken: where pointer and handle were when it was taken hold of

  function place() {
    const [x, y] = spots[moved.stop()]
    node.style.left = `${100 * x / size[0]}%`
    node.style.top = `${100 * y / size[1]}%`
  }

  function hold(...now) {
    [moved, spots, size] = now
    const [[x0, y0], [x1, y1]] = [spots[0], spots.at(-1)], turn = Math.atan2(y1 - y0, x1 - x0) * 180 / Math.PI
    node.firstChild.style.rotate = `${turn}deg`
    node.style.cursor = ["ew-resize", "nwse-resize", "ns-resize", "nesw-resize"][(Math.round(turn / 45) + 4) % 4]
    place()
  }

  // How far apart two stops lie on the screen, px.
  const apart = scale => scale * Math.hypot(spots[1][0] - spots[0][0], spots[1][1] - spots[0][1])

  node.addEventListener("pointerenter", () => moved.near())
  node.addEventListener("pointerdown", event => {
    event.preventDefault() // no text is marked on the way
    node.setPointerCapture(event.pointerId)
    taken = { x: event.clientX, y: event.clientY, spot: spots[moved.stop()] }
    moved.focus() // the keys go on from there
  })
  node.addEventListener("pointermove", event => {
    if (taken === null) return
    const scale = page.clientWidth / size[0], share = Math.min(1, apart(scale) / FINEST) / scale
    const x = taken.spot[0] + (event.clientX - taken.x) * share, y = taken.spot[1] + (event.clientY - taken.y) * share
    const far = spots.map(spot => Math.hypot(spot[0] - x, spot[1] - y)), stop = far.indexOf(Math.min(...far))
    if (stop !== moved.stop()) moved.slide(stop)
  })
  for (const end of ["pointerup", "pointercancel"]) node.addEventListener(end, () => { taken = null })
  return { node, hold, place }
}

// One control: its label, a box (mostly with a slider) or a choice, and below it what is wrong with what was typed.
function row(control, id, ask, rest) {
  const boxId = `${id}-${control.name}`, wrongId = `${boxId}-wrong`
  const wrong = make("p", { class: "quiltmath-wrong", id: wrongId, role: "alert" })
  const label = make("label", { for: boxId }, control.label, " ", make("span", {}, control.range))
  const box = control.options
    ? make("select", { id: boxId }, ...control.options.map(one => make("option", { value: one }, one)))
    : make("input", { type: "text", id: boxId, autocomplete: "off", spellcheck: "false" })
  const set = make("div", { class: "quiltmath-set" }, box)
  let kept = "", slider, at, way = 1 // at: its stop; way: where it went last
  const typed = () => {
    if (box.value === kept) return
    kept = box.value
    ask(control.name, { text: box.value })
  }
  box.addEventListener("change", typed)
  box.addEventListener("keydown", event => { if (event.key === "Enter") typed() })
  if (control.stops) {
    slider = make("input", { type: "range", min: 0, max: control.stops.length - 1, step: 1, "aria-label": control.label })
    slider.addEventListener("input", () => slid(Number(slider.value)))
    for (const near of ["focus", "pointerenter"]) slider.addEventListener(near, () => rest(own))
    set.append(slider)
  }

  function slid(stop) {
    const { text, spoken } = control.stops[stop]
    way = stop < at ? -1 : 1
    slider.value = at = stop
    box.value = kept = text
    slider.setAttribute("aria-valuetext", spoken)
    ask(control.name, { stop })
  }

  function show(value, words, latest) {
    if (latest && box.value === kept || kept === "") box.value = kept = value.text // not what is just being typed
    if (slider && latest) {
      slider.value = at = value.stop
      slider.setAttribute("aria-valuetext", value.spoken)
    }
    if (wrong.textContent !== unbroken(words)) wrong.textContent = unbroken(words)
    box.setAttribute("aria-invalid", words ? "true" : "false")
    words ? box.setAttribute("aria-describedby", wrongId) : box.removeAttribute("aria-describedby")
  }

  const own = {
    name: control.name,
    node: make("div", { class: "quiltmath-control" }, label, set, wrong),
    text: () => kept,
    stop: () => at,
    slide: slid,
    focus: () => slider.focus({ preventScroll: true }),
    near: () => rest(own),
    next: () => slider ? AHEAD.map(steps => control.stops[at + way * steps]?.text).filter(text => text !== undefined) : [],
    show,
  }
  return own
}

// The button that checks an answer, and the place of the reply to it.
const checked = () => [
  make("button", { type: "submit" }, "Check my answer"),
  make("p", { class: "quiltmath-reply", role: "status", "aria-atomic": "true" }),
]

function question(model, el) {
  const id = unique(), choices = model.get("choices"), [button, reply] = checked()
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
    onEnter(box, () => form.requestSubmit())
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

// For a class: how many held up a hand; kept beside the truth, and no answer.
function hands(model, id) {
  const label = make("label", { for: id }, model.get("hands_label"))
  const box = make("input", { type: "text", id, value: model.get("hands"), autocomplete: "off",
    placeholder: model.get("hands_example") })
  const typed = () => {
    model.set("hands", box.value)
    model.save_changes()
  }
  box.addEventListener("change", typed)
  onEnter(box, typed)
  return [label, box]
}

// Lines of cells: a box for each cell of the next line, and below them all lines as text, to paste and to correct.
function lines(model, el) {
  const id = unique(), wrong = make("p", { class: "quiltmath-wrong", id: `${id}-wrong`, role: "alert" })
  const boxes = model.get("cells").map((cell, number) =>
    make("input", { type: "text", id: `${id}-${number}`, autocomplete: "off", spellcheck: "false",
      placeholder: model.get("unless")[number] }))
  const labels = model.get("cells").map((cell, number) => make("label", { for: `${id}-${number}` }, cell))
  const line = make("form", { class: "quiltmath-line quiltmath-set" },
    ...boxes.map((box, number) => make("div", { class: "quiltmath-cell" }, labels[number], box)),
    make("button", { type: "submit" }, "Add"))
  const text = make("textarea", { id: `${id}-text`, rows: 12, spellcheck: "false" })
  const empty = make("button", { type: "button" }, "Empty the sheet")
  const all = make("details", {}, make("summary", {}, "All lines: paste or correct them"),
    make("label", { for: `${id}-text` }, `A line each: ${model.get("cells").join(", ")}`), text, empty)
  let turn = 0, sent

  line.addEventListener("submit", event => {
    event.preventDefault()
    const next = boxes.findIndex(box => !box.value.trim()), here = boxes.indexOf(document.activeElement)
    if (here >= 0 && next > here && next < model.get("usual")) { // Enter goes on to what is still missing
      boxes[next].focus()
      return
    }
    sent = boxes.map(box => box.value)
    model.set("given", { cells: sent, turn: ++turn })
    model.save_changes()
    fill(boxes.map(() => "")) // the next one need not wait
  })
  function fill(cells) {
    boxes.forEach((box, number) => { box.value = cells[number] })
    boxes[0].focus()
  }
  for (const box of boxes) onEnter(box, () => line.requestSubmit())
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

  const answered = () => {
    const said = model.get("answered")
    wrong.textContent = said.wrong
    if (said.at === "line" && said.turn === turn && boxes.every(box => !box.value)) fill(sent)
    for (const [at, places] of Object.entries({ line: boxes, text: [text] }))
      for (const box of places) {
        box.setAttribute("aria-invalid", said.at === at ? "true" : "false")
        box.setAttribute("aria-describedby", wrong.id)
      }
  }
  const show = () => { if (text.value !== model.get("text")) text.value = model.get("text") }
  const heard = { "change:text": show, "change:answered": answered }
  for (const [event, answer] of Object.entries(heard)) model.on(event, answer)
  el.append(line, wrong, all)
  show()
  return () => { for (const [event, answer] of Object.entries(heard)) model.off(event, answer) }
}

// A question that is answered on a picture: each point is a button that marks it, or takes the mark away.
function points(model, el) {
  const [button, reply] = checked(), size = model.get("size"), picture = make("div", { class: "quiltmath-picture" })
  const key = make("p", { class: "quiltmath-key" })
  picture.innerHTML = model.get("markup")
  const marks = model.get("points").map(([name, [x, y]]) => {
    const mark = make("button", { type: "button", class: "quiltmath-point", "aria-pressed": "false", "aria-label": name, "data-name": name })
    mark.innerHTML = "<svg viewBox='-12 -12 24 24'><path d='M-9-9-3-3M9-9 3-3M-9 9-3 3M9 9 3 3'/></svg>" // the point in sight
    mark.style.left = `${100 * x / size[0]}%`
    mark.style.top = `${100 * y / size[1]}%`
    mark.addEventListener("click", () => mark.setAttribute("aria-pressed", mark.getAttribute("aria-pressed") !== "true"))
    return mark
  })
  const place = make("div", { class: "quiltmath-place quiltmath-to-mark" }, picture, ...marks)
  const form = make("form", { class: "quiltmath-question" }, make("fieldset", {},
    make("legend", { class: "quiltmath-words" }, model.get("words")),
    make("div", { class: "quiltmath-marking" }, place,
      make("div", {}, key, make("div", { class: "quiltmath-set" }, button, ...hands(model, unique())), reply))))
  let turn = 0
  form.addEventListener("submit", event => {
    event.preventDefault()
    const marked = marks.filter(mark => mark.getAttribute("aria-pressed") === "true")
    model.set("given", { marked: marked.map(mark => mark.dataset.name), turn: ++turn })
    model.save_changes()
  })
  const show = () => {
    const truth = model.get("truth")
    reply.textContent = model.get("reply")
    for (const mark of marks) {
      const said = truth[mark.dataset.name]
      if (!said) continue
      mark.dataset.truth = said
      mark.setAttribute("aria-label", `${mark.dataset.name}: ${said}`)
    }
    if (Object.keys(truth).length) key.textContent = "A cross: lost. A ring: stays whole. Dashed: not as you marked it."
  }
  model.on("change:reply change:truth", show)
  el.append(form)
  show()
  return () => model.off("change:reply change:truth", show)
}

function status(model, el) {
  const place = make("div", { class: "quiltmath-reply", role: "status", "aria-atomic": "true" })
  const show = () => { place.innerHTML = model.get("value") }
  model.on("change:value", show)
  el.append(place)
  show()
  return () => model.off("change:value", show)
}

// What is typed, pasted or dropped into a box of the form around it is kept out where it would be too much.
function limit(model, el) {
  const place = make("p", { class: "quiltmath-wrong", role: "alert" })
  const incoming = event => (event.clipboardData ?? event.dataTransfer)?.getData("text/plain") ?? event.data ?? ""
  const check = event => {
    const box = event.target
    if (box.value === undefined || !el.closest(".qm-form")?.contains(box)) return
    const all = box.value.length - (box.selectionEnd - box.selectionStart) + incoming(event).length
    const tooMuch = all > model.get("most") && incoming(event)
    place.textContent = tooMuch ? model.get("words").replace("{}", all.toLocaleString("en-US")) : ""
    if (tooMuch) event.preventDefault()
  }
  const ways = ["beforeinput", "paste", "drop"]
  for (const way of ways) document.addEventListener(way, check, true)
  el.append(place)
  return () => { for (const way of ways) document.removeEventListener(way, check, true) }
}

// A file is chosen; one that would be too much is not sent.
function file(model, el) {
  const place = make("p", { class: "quiltmath-wrong", role: "alert" })
  const input = make("input", { type: "file", accept: model.get("accept") })
  input.addEventListener("change", async () => {
    const [chosen] = input.files
    if (!chosen) return
    const tooMuch = chosen.size > model.get("most")
    place.textContent = tooMuch ? model.get("words").replace("{}", chosen.size.toLocaleString("en-US")) : ""
    if (!tooMuch) model.send({ name: chosen.name }, undefined, [await chosen.arrayBuffer()])
    input.value = ""
  })
  el.append(make("label", { class: "quiltmath-file" }, model.get("label"), " ", input), place)
}

// Whenever the form says so, it is brought into sight, and in it the question around this.
function insight(model, el) {
  const bring = () => setTimeout(() => {
    for (const around of [".qm-body", ".qm-question"]) el.closest(around)?.scrollIntoView({ block: "nearest" })
  }, 200) // once what stands in it is there
  model.on("msg:custom", bring)
  return () => model.off("msg:custom", bring)
}

const KINDS = { app, question, points, lines, status, limit, file, insight }

export default {
  render({ model, el }) {
    el.classList.add("quiltmath")
    return KINDS[model.get("kind")](model, el)
  },
}
