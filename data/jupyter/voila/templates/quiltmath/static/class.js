// A lesson in sections, one at a time: each begins at a heading of the second level.

document.documentElement.dataset.quiltmath = "class"

const sectionsOf = cells => {
  const sections = []
  for (const cell of cells) {
    const heading = cell.querySelector(".jp-MarkdownCell :is(h1, h2)")
    if (heading || !sections.length) sections.push({ heading, cells: [] })
    sections.at(-1).cells.push(cell)
  }
  return sections
}

// A picture is no higher than the window, as long as its words keep their size.
function fit(cells) {
  for (const cell of cells)
    for (const svg of cell.querySelectorAll(".quiltmath-wide svg"))
      svg.style.maxHeight = `max(100vh - 110px, ${svg.viewBox.baseVal.height}px)`
}

// Words alone stand in larger type, where they fit the window so.
function enlarge(cells, rendered) {
  const plain = !cells.some(cell => cell.querySelector(".quiltmath, .quiltmath-still, .quiltmath-told, table, pre, .jupyter-widgets"))
  const large = on => cells.forEach(cell => cell.classList.toggle("quiltmath-large", on))
  large(plain)
  if (plain && rendered.scrollHeight > rendered.clientHeight) large(false)
}

const calm = matchMedia("(prefers-reduced-motion: reduce)")
const toTop = node => node.scrollIntoView({ block: "start", behavior: calm.matches ? "auto" : "smooth" })

// The page follows the hand: once a control is let go of, its app is in sight as a whole, and so is what an answer uncovers.
function follow(rendered) {
  const moved = event => {
    const app = event.target.closest?.(".quiltmath")
    if (!app?.querySelector(".quiltmath-controls")) return
    const { top, bottom } = app.getBoundingClientRect()
    if (top > 12 && bottom > rendered.clientHeight - 60) toTop(app)
  }
  rendered.addEventListener("change", moved)
  rendered.addEventListener("pointerup", event => { if (event.target.closest(".quiltmath-handle")) moved(event) })
  rendered.addEventListener("submit", event => {
    const box = event.target.closest(".widget-vbox"), reply = box?.querySelector(".quiltmath-question + .quiltmath-reply")
    if (!reply) return
    const high = box.offsetHeight
    new ResizeObserver((_, watch) => {
      if (box.offsetHeight < high + 200) return
      watch.disconnect()
      toTop(reply)
    }).observe(box)
  })
}

const words = heading => (heading ? heading.firstChild.textContent.trim() : "")

// What a section holds below the window is announced beside its name, and one press away.
const LEAST_BELOW = 24  // px: of less nothing is missed
function below(rendered, nav) {
  const more = document.createElement("button")
  more.type = "button"
  more.textContent = "More below"
  more.addEventListener("click", () =>
    rendered.scrollBy({ top: 0.8 * (rendered.clientHeight - nav.offsetHeight), behavior: calm.matches ? "auto" : "smooth" }))
  const told = () => {
    const padding = parseFloat(getComputedStyle(rendered.firstElementChild).paddingBottom) - nav.offsetHeight
    more.hidden = rendered.scrollHeight - rendered.scrollTop - rendered.clientHeight - padding < LEAST_BELOW
  }
  rendered.addEventListener("scroll", told)
  for (const watched of [rendered, rendered.firstElementChild]) new ResizeObserver(told).observe(watched)
  return more
}

function bar(rendered, sections) {
  const nav = document.createElement("nav"), where = document.createElement("p")
  nav.className = "quiltmath-sections"
  nav.setAttribute("aria-label", "Sections of this lesson")
  const button = (label, way) => {
    const made = document.createElement("button")
    made.type = "button"
    made.textContent = label
    made.addEventListener("click", () => show(at + way))
    return made
  }
  const back = button("Back", -1), next = button("Next", 1)
  nav.append(back, where, below(rendered, nav), next)
  document.body.append(nav)
  let at = 0

  function show(wanted, moved = true) {
    at = Math.min(Math.max(wanted, 0), sections.length - 1)
    sections.forEach((section, number) => section.cells.forEach(cell => { cell.hidden = number !== at }))
    where.textContent = `${at + 1} of ${sections.length}: ${words(sections[at].heading)}`
    back.disabled = at === 0
    next.disabled = at === sections.length - 1
    const run = sections[at].cells.filter(cell => cell.querySelector(".jp-CodeCell"))
    rendered.firstElementChild.classList.toggle("quiltmath-one", run.length === 1)
    fit(sections[at].cells)
    enlarge(sections[at].cells, rendered)
    if (!moved) return
    rendered.scrollTop = 0
    history.replaceState(null, "", `#${at + 1}`)
    sections[at].heading?.setAttribute("tabindex", "-1")
    sections[at].heading?.focus({ preventScroll: true })
  }

  const ways = { ArrowRight: 1, PageDown: 1, ArrowLeft: -1, PageUp: -1, Home: -sections.length, End: sections.length }
  document.addEventListener("keydown", event => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || !(event.key in ways)) return
    if (event.target.closest("input, select, textarea, [contenteditable]")) return
    event.preventDefault()
    show(at + ways[event.key])
  })
  show((parseInt(location.hash.slice(1), 10) || 1) - 1, false)
}

const rendered = document.getElementById("rendered_cells")
if (rendered) {
  bar(rendered, sectionsOf(rendered.querySelectorAll("[cell-index]")))
  follow(rendered)
}
