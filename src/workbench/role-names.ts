/** What a state was taken for, as `--map` would say it. */
import type { Role } from '../recording/match-steps.ts'
import type { Names } from '../recording/match-steps-given.ts'

/** `join, send`: at its first, and at all later visits. */
export const roleNames = (roles: readonly Role[], names: Names): string =>
  roles.map((role) => roleName(role, names)).join(', ')

function roleName(role: Role, { steps, drains }: Names): string {
  switch (role.kind) {
    case 'step':
      return steps[role.step]
    case 'drain':
      return drains[role.drain]
    default:
      return role.kind
  }
}
