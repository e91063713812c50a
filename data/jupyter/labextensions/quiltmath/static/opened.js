// A page of the kit is run when it is opened, its code folded, and stays at its top. JupyterLab takes this file as a
// federated extension; it needs no building, since it uses only what the application hands over.

(() => {
  const STYLE = `
    .jp-Notebook .jp-RenderedHTMLCommon { font-size: 17px; }
    .jp-Notebook .jp-RenderedText pre { font-size: 16px; line-height: 1.5; word-break: normal; overflow-wrap: break-word; margin-bottom: 0.8em; }
    .jp-Notebook .jp-CodeCell .jp-InputPlaceholder { display: none; }
    .jp-Notebook .jp-OutputArea-output { overflow-x: auto; }
    @media (max-width: 900px) { .jp-Notebook .jp-InputPrompt, .jp-Notebook .jp-OutputPrompt { display: none; } }
    @media (prefers-reduced-motion: reduce) { * { transition: none !important; animation: none !important; } }`

  const told = () => JSON.parse(document.getElementById("jupyter-config-data").textContent)

  const scrolled = panel => panel.content.node.querySelector(".jp-WindowedPanel-outer") || panel.content.node

  const atTop = panel => {
    panel.content.deselectAll()
    panel.content.activeCellIndex = 0
    scrolled(panel).scrollTop = 0
  }

  async function open(app, panel) {
    await panel.context.ready
    await panel.revealed
    for (const cell of panel.content.widgets) if (cell.model.type === "code") cell.inputHidden = true
    await panel.sessionContext.ready
    let touched = false // a reader who has begun to read is not sent back
    const touch = () => { touched = true }
    for (const event of ["wheel", "keydown", "pointerdown"]) panel.node.addEventListener(event, touch, { once: true })
    const stay = () => { if (!touched) scrolled(panel).scrollTop = 0 } // while it runs, JupyterLab scrolls along
    scrolled(panel).addEventListener("scroll", stay)
    const run = app.commands.execute("notebook:run-all-cells")
    atTop(panel)
    await run
    scrolled(panel).removeEventListener("scroll", stay)
    if (!touched) atTop(panel)
  }

  function activate(app) {
    const pages = told().quiltmathPages
    if (!pages) return // not a JupyterLab of the kit's: Voilà takes extensions too
    document.head.append(Object.assign(document.createElement("style"), { textContent: STYLE }))
    const opened = new WeakSet()
    const look = () => {
      const panel = app.shell.currentWidget
      if (!panel?.sessionContext || !panel.content?.widgets || opened.has(panel)) return
      opened.add(panel)
      if (pages.includes(panel.context?.path)) open(app, panel).catch(console.error)
    }
    app.restored.then(() => {
      app.shell.collapseLeft?.()
      app.shell.collapseRight?.()
      look()
      app.shell.currentChanged.connect(look)
    })
  }

  const plugin = { id: "quiltmath:opened", autoStart: true, activate }
  window._JUPYTERLAB = window._JUPYTERLAB || {}
  window._JUPYTERLAB.quiltmath = {
    init: () => {},
    get: () => Promise.resolve(() => ({ __esModule: true, default: plugin })),
  }
})()
