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

const words = heading => (heading ? heading.firstChild.textContent.trim() : "")

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
  nav.append(back, where, next)
  document.body.append(nav)
  let at = 0

  function show(wanted, moved = true) {
    at = Math.min(Math.max(wanted, 0), sections.length - 1)
    sections.forEach((section, number) => section.cells.forEach(cell => { cell.hidden = number !== at }))
    where.textContent = `${at + 1} of ${sections.length}: ${words(sections[at].heading)}`
    back.disabled = at === 0
    next.disabled = at === sections.length - 1
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
if (rendered) bar(rendered, sectionsOf(rendered.querySelectorAll("[cell-index]")))
