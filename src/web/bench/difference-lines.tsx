/** A unified difference, line by line: what goes, what comes, told apart by sign and by ink. */
const CLASSES: Readonly<Record<string, string>> = { '-': 'goes', '+': 'comes', '@': 'place' }
const WORDS: Readonly<Record<string, string>> = { '-': 'goes: ', '+': 'comes: ' }

export function DifferenceLines({ difference }: { readonly difference: string }) {
  const lines = difference.split('\n').filter((line) => line !== '' && !/^(---|\+\+\+) /.test(line))
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className="difference" tabIndex={0} aria-label="What would change">
      {lines.map((line, k) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name but their place
        <div key={k} className={CLASSES[line[0]] ?? ''}>
          <span className="for-ears">{WORDS[line[0]] ?? ''}</span>
          {line}
        </div>
      ))}
    </section>
  )
}
