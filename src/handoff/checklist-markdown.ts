/** The checklist as Markdown, to be kept beside the firmware and ticked off at each review. */
import type { Handoff } from './handoff.ts'

export function checklistToMarkdown({ origin, checklist, remarks }: Handoff): string {
  const variant = origin.variant === null ? '' : `, variant "${origin.variant}"`
  return `${[
    `# Before each rest: ${words(origin.title)}`,
    `From \`${origin.file}\`${words(variant)}, written by \`overwinter handoff\` ${origin.version}. The forecast counts on all of this.`,
    ...checklist.flatMap(({ title, items }) => [
      `## ${title}`,
      items
        .map(
          ({ what, why, path }) =>
            `- [ ] **${words(what)}** ${words(why)}${path === null ? '' : ` (\`${path}\`)`}`,
        )
        .join('\n'),
    ]),
    ...(remarks.length === 0
      ? []
      : [
          '## Take care',
          remarks
            .map(({ message, cure, path }) => `- \`${path}\`: ${words(message)}; ${words(cure)}.`)
            .join('\n'),
        ]),
  ].join('\n\n')}\n`
}

/** A file's own words must not turn into markup. */
const words = (text: string): string =>
  text.replace(/[\\`*_[\]<>#|]/g, (mark) => `\\${mark}`).replace(/\s+/g, ' ')
