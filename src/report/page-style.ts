/** The look of the report: a field notebook. Warm paper or dark slate, one accent, numerals that line up. */
export const PAGE_STYLE = `
:root { color-scheme: light dark; --paper: #faf6ee; --ink: #2d2a26; --faint: #6b6358; --rule: #dccfb9; --accent: #9a3f1d; --band-wide: #e9dcc7; --band: #cdb08c; }
@media (prefers-color-scheme: dark) {
  :root { --paper: #23282d; --ink: #ece5d8; --faint: #a89f92; --rule: #434b52; --accent: #e59a6f; --band-wide: #3a434a; --band: #5f6b73; }
}
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 48rem; padding: 2.5rem 1.25rem 4rem; background: var(--paper); color: var(--ink);
  font: 1.0625rem/1.55 "Iowan Old Style", "Palatino Linotype", Palatino, "Book Antiqua", Georgia, serif; font-variant-numeric: lining-nums tabular-nums; }
h1 { font-size: 1.9rem; line-height: 1.2; margin: 0 0 1rem; font-weight: 600; }
h2 { font-size: 1.2rem; margin: 0 0 .75rem; font-weight: 600; }
.kind { margin: 0; color: var(--faint); font-style: italic; }
.verdict { font-size: 1.3rem; line-height: 1.45; margin: 0; padding-left: 1rem; border-left: 3px solid var(--accent); }
section { margin-top: 2.75rem; break-inside: avoid; }
figure { margin: 0; }
figure svg { width: 100%; min-width: 30rem; height: auto; color: var(--ink); }
figcaption { color: var(--ink); font-size: .97rem; margin-top: .5rem; }
details { margin-top: .6rem; font-size: .92rem; }
summary { cursor: pointer; color: var(--accent); }
summary:focus-visible, .wide:focus-visible { outline: 2px solid var(--accent); outline-offset: 3px; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; margin-top: .5rem; }
th, td { text-align: left; vertical-align: top; padding: .3rem .9rem .3rem 0; border-bottom: 1px solid var(--rule); font-weight: 400; }
thead th { color: var(--faint); font-style: italic; }
.answer { white-space: nowrap; font-weight: 600; }
.care { border: 1px solid var(--accent); padding: 1rem 1.25rem .5rem; }
footer { margin-top: 3rem; color: var(--faint); font-size: .9rem; }
@media print {
  :root { --paper: #fff; --ink: #000; --faint: #444; --rule: #bbb; --accent: #7a3217; --band-wide: #e6e6e6; --band: #bdbdbd; }
  body { max-width: none; padding: 0; font-size: 10.5pt; }
  details { display: none; }
}
`
