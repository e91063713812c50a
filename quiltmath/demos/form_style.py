"""How the form looks: its fields beside the verdict in a wide place, the verdict folded under it in a narrow one.

The place is what the page leaves the form, not the window: a notebook has margins of its own.
"""

NARROW = 820  # px: with less room the fields and the verdict do not stand side by side
PHONE = 480  # px: with less room no line of boxes fits beside each other
VERMILLION, BLUE, GREEN = "#d55e00", "#0072b2", "#009e73"  # of Okabe and Ito, as in the pictures

CSS = f"""<style>
.qm-form {{ container-type: inline-size; font-size: 15px; line-height: 1.4; overflow: visible }}
.qm-form h3 {{ margin: 0; font-size: 16px }}
.qm-form p {{ margin: 0 0 6px }}
.qm-form .widget-html-content {{ line-height: 1.4; font-size: 15px; white-space: normal; overflow-wrap: anywhere }}
.qm-form .widget-html {{ height: auto; margin: 0 }}
.qm-bar {{ flex-flow: row wrap; align-items: flex-end; gap: 2px 6px; overflow: visible }}
.qm-body {{ display: grid; grid-template: "fields verdict" minmax(0, 1fr) / minmax(0, 1.2fr) minmax(320px, 1fr);
  gap: 0 16px; height: calc(100vh - 190px); min-height: 440px; overflow: visible }}
.qm-fields {{ grid-area: fields; overflow-y: auto; overflow-x: hidden; padding-right: 8px; min-height: 0 }}
.qm-verdict {{ grid-area: verdict; overflow-y: auto; overflow-x: hidden; min-height: 0;
  border-left: 3px solid #8884; padding-left: 12px }}
.qm-body.widget-box > * {{ flex: none }}
.qm-fields > *, .qm-verdict > *, .qm-verdict-more > * {{ flex-shrink: 0; overflow: visible }}
.qm-verdict-more {{ overflow: visible }}
.qm-folder {{ display: none }}
.qm-section {{ margin: 0 0 10px; overflow: visible }}
.qm-section > *, .qm-line, .qm-line > * {{ overflow: visible }}
.qm-row {{ flex-flow: row nowrap; align-items: flex-end; gap: 0 5px }}
.qm-block .qm-row {{ align-items: flex-start }}
.qm-block .qm-row > .widget-html {{ flex: none; margin-top: 20px }}
.qm-block .qm-row {{ flex-wrap: wrap }}
.qm-block .qm-row > .widget-textarea {{ flex: 1 1 140px }}
.qm-block .qm-row > .widget-text {{ max-width: 92px }}
.qm-block .qm-take {{ margin-top: 20px !important }}
.qm-pattern .qm-row, .qm-setting .qm-row {{ flex-wrap: wrap }}
.qm-field {{ flex-direction: column; align-items: stretch; height: auto !important; margin: 2px 0;
  flex: 0 1 auto; min-width: 3em }}
.qm-later .qm-field {{ margin-top: 0 }}
.qm-field > label.widget-label {{ width: auto !important; height: auto; text-align: left; margin: 0; font-size: 13px;
  line-height: 1.35; white-space: normal; overflow: visible }}
.qm-field > input, .qm-field > select, .qm-field > textarea {{ width: 100% !important; flex: none; font-size: 15px;
  box-sizing: border-box; padding-left: 6px; padding-right: 4px }}
.qm-field > select {{ height: 28px; font-size: 14px; padding: 0 16px 0 4px }}
.qm-field > textarea {{ height: auto; white-space: pre; overflow-x: auto }}
.qm-page .qm-field > textarea {{ white-space: pre-wrap }}
.qm-more {{ margin: 2px; height: 28px }}
.qm-more > select {{ height: 26px; font-size: 13px; padding: 0 16px 0 6px }}
.qm-more > label, .qm-spoken {{ position: absolute; width: 1px !important; height: 1px; overflow: hidden;
  clip-path: inset(50%); white-space: nowrap }}
.qm-wrong > label + *, .qm-stop > label + * {{ border: 3px solid {VERMILLION} !important }}
.qm-ask > label + * {{ border: 3px dashed {BLUE} !important }}
.qm-note > label + * {{ border: 2px dotted {BLUE} !important }}
.qm-said {{ border-left: 4px solid {VERMILLION}; padding: 1px 8px; margin: 2px 0 6px }}
.qm-said.qm-is-ask, .qm-said.qm-is-note {{ border-color: {BLUE} }}
.qm-number {{ display: inline-block; min-width: 1.4em; text-align: center; border: 2px solid; border-radius: 1em;
  font-weight: bold; line-height: 1.3; margin-right: 5px }}
.qm-form button.qm-small, .qm-form button.qm-take {{ font-size: 13px; height: auto; min-height: 26px; line-height: 1.4;
  white-space: normal; text-align: left }}
.qm-form button.qm-take {{ margin: 2px 0; padding: 0; min-width: 26px; text-align: center; flex: none }}
.qm-form .jupyter-button {{ font-size: 14px }}
.qm-head {{ padding: 6px 10px; border-left: 8px solid #888; margin-bottom: 6px; background: #8881 }}
.qm-head.qm-is-stop {{ border-color: {VERMILLION} }}
.qm-head.qm-is-ask {{ border-color: {BLUE} }}
.qm-head.qm-is-go {{ border-color: {GREEN} }}
.qm-head strong {{ font-size: 17px }}
.qm-findings {{ list-style: none; padding: 0; margin: 4px 0 }}
.qm-verdict svg, .qm-line svg {{ max-width: 100%; height: auto }}
.qm-page textarea {{ font-size: 14px; width: 100% !important }}
.qm-read {{ max-height: 15em; overflow-y: auto; border: 1px solid #8886 }}
.qm-read table {{ border-collapse: collapse; width: 100% }}
.qm-read td:first-child {{ width: 45% }}
.qm-read td, .qm-read th {{ text-align: left; vertical-align: top; padding: 3px 8px; border-bottom: 1px solid #8884 }}
.qm-question {{ border-left: 8px solid {BLUE}; padding: 6px 10px; margin: 6px 0; background: #8881 }}
.qm-question, .qm-question > * {{ overflow: visible }}
.qm-answers {{ flex-flow: row wrap; gap: 4px 6px; align-items: flex-end }}
.qm-answer {{ max-width: 100%; align-items: flex-start }}
.qm-answer svg {{ max-width: 100%; height: auto }}
.qm-answers button {{ height: auto; min-height: 30px; white-space: normal; text-align: left; line-height: 1.35 }}
@container (min-width: {PHONE}px) {{
  .qm-section:not(.qm-block) .qm-later .qm-field > label.widget-label {{ position: absolute; height: 1px;
    width: 1px !important; overflow: hidden;
    clip-path: inset(50%) }}
}}
@container (max-width: {NARROW - 0.02}px) {{
  .qm-body {{ grid-template: "verdict" auto "fields" minmax(0, 1fr) / minmax(0, 1fr) }}
  .qm-verdict {{ border-left: none; padding-left: 0; max-height: 60vh }}
  .qm-folder {{ display: block; width: auto }}
  .qm-verdict:not(.qm-open) .qm-verdict-more {{ display: none }}
}}
@container (max-width: {PHONE - 0.02}px) {{
  .qm-row {{ flex-wrap: wrap }}
}}
</style>"""
