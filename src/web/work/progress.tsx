/** How far work of the server is. */
import { shareShown } from '../look/shown.ts'

export function Progress({ told }: { readonly told: { readonly event: string } | null }) {
  const share =
    told !== null && 'done' in told && 'of' in told && Number(told.of) > 0
      ? Number(told.done) / Number(told.of)
      : null
  return (
    <span role="status">
      <progress value={share ?? undefined} aria-label="Progress" />{' '}
      {share === null ? 'waiting' : shareShown(share)}
    </span>
  )
}
