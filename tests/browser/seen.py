"""What a reader of a page meets: controls moved by key and pointer, what does not fit, what a screen reader lacks."""

PATIENCE = 60_000  # ms: a machine that does much else draws slowly
APPS = ".quiltmath:has(.quiltmath-controls):visible"
CHANGED = "([app, before]) => app.querySelector('.quiltmath-picture').innerHTML !== before"
SPOKEN = "slider => [slider.getAttribute('aria-label'), slider.getAttribute('aria-valuetext')]"

# What sticks out of its place or of the window, and text that is shown too small.
CROOKED = """([root, least]) => {
  const wrong = [], place = document.querySelector(root)
  const all = [...place.querySelectorAll('.quiltmath, .quiltmath-still')]
  const shown = node => node.getClientRects().length && getComputedStyle(node).visibility !== 'hidden'
  const told = node =>
    (node.getAttribute('aria-label') || node.innerText || node.textContent || node.tagName).trim().slice(0, 60)
  for (const own of all.filter(shown)) {
    const box = own.getBoundingClientRect()
    if (box.left < -1 || box.right > innerWidth + 1) wrong.push(`out of the window: ${told(own)}`)
    for (const node of own.querySelectorAll('svg, p, label, legend, input, select, button, div')) {
      if (!shown(node) || node.closest('.quiltmath-announced')) continue
      const one = node.getBoundingClientRect()
      if (one.left < box.left - 1 || one.right > box.right + 1) wrong.push(`sticks out: ${told(node)}`)
      const text = [...node.childNodes].some(child => child.nodeType === 3 && child.textContent.trim())
      if (text && parseFloat(getComputedStyle(node).fontSize) < 16) wrong.push(`small: ${told(node)}`)
      if (text && node.scrollWidth > node.clientWidth + 1) wrong.push(`cut off: ${told(node)}`)
    }
    for (const svg of own.querySelectorAll('svg[role=img]')) {
      if (!shown(svg)) continue
      const page = svg.getBoundingClientRect(), times = page.width / svg.viewBox.baseVal.width
      for (const words of svg.querySelectorAll('text')) {
        if (words.closest('[clip-path]')) continue
        const one = words.getBoundingClientRect()
        if (one.left < page.left - 3 || one.right > page.right + 3) wrong.push(`out of its picture: ${told(words)}`)
        if (parseFloat(words.getAttribute('font-size')) * times < least) wrong.push(`small there: ${told(words)}`)
      }
    }
    for (const handle of own.querySelectorAll('input, button, select, .quiltmath-handle')) {
      const one = handle.getBoundingClientRect()
      if (shown(handle) && (one.height < 24 || one.width < 24)) wrong.push(`hard to hit: ${told(handle)}`)
    }
  }
  return [...new Set(wrong)]
}"""


def crooked(page, root=".jp-NotebookPanel", least=15.9):
    """What does not fit its place on the page, in words; `least` px is how large the words of a picture are shown."""
    return page.evaluate(CROOKED, [root, least])


def settled(page, app, before):
    """Wait until the app shows another picture than `before`."""
    page.wait_for_function(CHANGED, arg=[app.element_handle(), before], timeout=PATIENCE)


def picture(app):
    return app.locator(".quiltmath-picture").evaluate("picture => picture.innerHTML")


def boxes(app):
    return [box.input_value() for box in app.locator("input[type=text]").all()]


def slid(page, app, slider, pointer=False):
    """Move a slider by a key, or by the pointer: picture, sentence, box and what is said all follow it."""
    before, words, typed = picture(app), app.locator(".quiltmath-sentence").inner_text(), boxes(app)
    name, said = slider.evaluate(SPOKEN)
    at, last = int(slider.input_value()), int(slider.get_attribute("max"))
    if pointer:
        where = slider.bounding_box()
        slider.click(position={"x": where["width"] * (0.2 if at > last / 2 else 0.8), "y": where["height"] / 2})
    else:
        slider.focus()
        slider.press("ArrowLeft" if at == last else "ArrowRight")
    settled(page, app, before)
    page.wait_for_function(
        "([app, words]) => app.querySelector('.quiltmath-sentence').innerText !== words",
        arg=[app.element_handle(), words],
        timeout=PATIENCE,
    )
    now = slider.evaluate(SPOKEN)
    assert name and now[0] == name and now[1] != said and boxes(app) != typed
    assert any(now[1].removesuffix(" in") == box for box in boxes(app)), (now, boxes(app))


def every_guess_made(page):
    """Give some answer to each question with a choice that is in sight, so that what it uncovers is there too."""
    for asked in page.locator(".quiltmath-question:has([type=radio]):visible").all():
        asked.locator("[type=radio]").first.check()
        asked.locator("button").click()
        asked.locator("xpath=following-sibling::p").filter(has_text=".").wait_for(timeout=PATIENCE)
    for asked in page.locator(".quiltmath-question:has(.quiltmath-point):visible").all():
        asked.locator(".quiltmath-point").first.click()
        asked.get_by_role("button", name="Check my answer").click()
        asked.locator(".quiltmath-key").filter(has_text="A cross").wait_for(timeout=PATIENCE)


DRAGS = {"ns-resize": (0, 40), "ew-resize": (40, 0), "nesw-resize": (30, -30), "nwse-resize": (30, 30)}


def dragged(page, app, handle):
    """Drag a handle on the picture its way, or back where it is at its end: picture and slider follow, and have the
    keys then."""
    handle.scroll_into_view_if_needed()
    before, typed, where = picture(app), boxes(app), handle.bounding_box()
    x, y = where["x"] + where["width"] / 2, where["y"] + where["height"] / 2
    right, down = DRAGS[handle.evaluate("handle => getComputedStyle(handle).cursor")]
    for way in (1, -1):
        page.mouse.move(x, y)
        page.mouse.down()
        page.mouse.move(x + way * right, y + way * down, steps=4)
        page.mouse.up()
        if boxes(app) != typed:
            break
    settled(page, app, before)
    assert sum(one != other for one, other in zip(boxes(app), typed)) == 1 and handle.bounding_box() != where
    assert app.locator("input[type=range]:focus").count() == 1


def every_control_moved(page, pointers=(False,)):
    """Move each slider that is in sight, each handle on a picture, and each choice."""
    for app in page.locator(APPS).all():
        for slider in app.locator("input[type=range]").all():
            for pointer in pointers:
                slid(page, app, slider, pointer)
        for handle in app.locator(".quiltmath-handle").all():
            dragged(page, app, handle)
        for choice in app.locator("select").all():
            before, options = picture(app), choice.locator("option").all_inner_texts()
            choice.select_option(options[0] if choice.input_value() != options[0] else options[1])
            settled(page, app, before)


def hard_for_some(page, root=".quiltmath"):
    """What axe-core calls serious or critical in the kit's own widgets, in words."""
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(page, context=root).response["violations"]
    return [
        f"{one['id']}: {one['help']}: {[node['html'][:120] for node in one['nodes']]}"
        for one in found
        if one["impact"] in ("serious", "critical")
    ]
