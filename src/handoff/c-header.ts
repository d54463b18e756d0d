/** The C11 header: constants with what they mean, the table's type, and what can be asked. */
import { comment, define, macro, uint16, uint32, uint64 } from './c-text.ts'
import type { Alarm, Band, Handoff, Origin } from './handoff.ts'

export interface CStyle {
  /** Lower case; see `prefixProblem`. */
  readonly prefix: string
  /** Times go in and out as a clock's registers hold them, two decimal digits in a byte. */
  readonly bcd: boolean
}

export function cHeader(handoff: Handoff, { prefix, bcd }: CStyle): string {
  const guard = macro(prefix, 'handoff_h')
  return [
    originComment(handoff.origin, 'what its firmware needs to know'),
    `#ifndef ${guard}`,
    define(guard, '').trim(),
    '',
    '#include <stdbool.h>\n#include <stdint.h>',
    '',
    '#ifdef __cplusplus\nextern "C" {\n#endif',
    '',
    intervals(handoff, prefix),
    latch(handoff, prefix),
    ...(handoff.alarm === null ? [noAlarm(prefix)] : [alarm(handoff, handoff.alarm, prefix, bcd)]),
    budget(handoff, prefix),
    '#ifdef __cplusplus\n}\n#endif',
    '',
    `#endif /* ${guard} */`,
    '',
  ].join('\n')
}

export function originComment(origin: Origin, about: string): string {
  const variant = origin.variant === null ? '' : `, variant "${origin.variant}"`
  return comment(
    `${origin.title}: ${about}.`,
    '',
    `Written by "overwinter handoff" ${origin.version} from ${origin.file}${variant} (SHA-256 begins with ${origin.fingerprint}), seed ${origin.seed}, ${origin.draws} draws.`,
    'Do not edit: change that file and write this anew.',
  )
}

function intervals({ rows, alarm }: Handoff, prefix: string): string {
  return [
    comment(
      'Intervals by battery voltage. Row 0 is the usual interval; each further row holds while the battery is low, and is left only some way above the voltage at which it was entered (hysteresis).',
    ),
    define(macro(prefix, 'rows'), `${rows.length}u`),
    '',
    `struct ${prefix}_row_values {`,
    '    uint16_t below_mv;   /* mV: the row is entered when the battery reads below; of no use in row 0 */',
    '    uint16_t above_mv;   /* mV: it is left for the row before when the battery reads above */',
    `    uint32_t interval_s; /* s: ${INTERVAL_MEANS[alarm?.kind ?? 'events']} */`,
    '};',
    '',
    `extern const struct ${prefix}_row_values ${prefix}_rows[${macro(prefix, 'rows')}];`,
    '',
    comment(
      'The row that holds now. battery_mv: the battery in mV, read under the rest load, before anything is switched on. row: the row that held before, 0 at the very start; it must outlive the rest.',
    ),
    `uint8_t ${prefix}_row(uint16_t battery_mv, uint8_t row);`,
    '',
  ].join('\n')
}

const INTERVAL_MEANS: Readonly<Record<Alarm['kind'] | 'events', string>> = {
  rest: 'rest from the end of the work',
  rate: 'from wake to wake',
  'clock-minutes': 'whole minutes of the clock, times 60',
  'times-of-day': '0, wakes follow times of day',
  events: '0, wakes follow events',
}

function latch(
  { latch: { brownout_mV, low_mV, restart_mV, because, temperature_C } }: Handoff,
  prefix: string,
) {
  return [
    comment(
      `Low battery, in mV as read at the battery under the rest load. LOW: in the coldest nights (${temperature_C.toFixed(0)} degrees C) this is where ${because}; no wake is begun below it. RESTART: work begins again from here on. BROWNOUT: with next to no load the rail falls to its brown-out threshold here, the drop-out of the regulator included. Nothing is added for the error of your converter.`,
      'This does not take the place of a protection circuit: the limits in the data sheet of the cell count.',
    ),
    define(macro(prefix, 'low_mv'), uint16(low_mV)),
    define(macro(prefix, 'restart_mv'), uint16(restart_mV)),
    define(macro(prefix, 'brownout_mv'), uint16(brownout_mV)),
    '',
    comment(
      'True while no work should be done. was_low: what was answered last time, false at the very start; it must outlive the rest.',
    ),
    `bool ${prefix}_is_low(uint16_t battery_mv, bool was_low);`,
    '',
  ].join('\n')
}

const noAlarm = (prefix: string) =>
  [
    comment('Only events wake the device: there is no alarm to set.'),
    define(macro(prefix, 'has_alarm'), '0'),
    '',
  ].join('\n')

function alarm({ clock, events }: Handoff, { kind }: Alarm, prefix: string, bcd: boolean): string {
  const digits = bcd ? ', as two decimal digits in a byte (BCD; mask off the flags of your clock first)' : ''
  return [
    comment(
      `The next alarm. The clock keeps ${clock}${kind === 'rate' ? '; the grid counts from midnight of day 0' : ''}.${events ? ' An event wakes the device too; ask for the next alarm again at the end of the work that it brings.' : ''}`,
    ),
    define(macro(prefix, 'has_alarm'), '1'),
    '',
    `struct ${prefix}_alarm {`,
    '    uint32_t at_s;    /* s on the clock, counted from midnight of day 0 */',
    '    uint32_t ahead_s; /* s from now */',
    '    uint16_t skips;   /* so many times an alarm by hour, minute and second fires before it is meant */',
    '    uint8_t hour;     /* 0 to 23 */',
    '    uint8_t minute;   /* 0 to 59 */',
    '    uint8_t second;   /* 0 to 59 */',
    '};',
    '',
    comment(
      `Seconds since midnight of day 0. day: days since any fixed day, or always 0 where every interval divides 24 h; up to 49709. hour (0 to 23), minute and second (0 to 59) as the clock shows them${digits}.`,
    ),
    `uint32_t ${prefix}_clock(uint16_t day, uint8_t hour, uint8_t minute, uint8_t second);`,
    '',
    comment(
      `The alarm that follows the end of the work. now_s: the clock when the work ends, whole seconds that have passed; row: the row that holds. hour, minute and second come${bcd ? ' in BCD' : ' in binary'}. The alarm always lies at least 1 s ahead; if the clock has reached it by the time it is set, ask again.`,
    ),
    `struct ${prefix}_alarm ${prefix}_next_alarm(uint32_t now_s, uint8_t row);`,
    '',
  ].join('\n')
}

function budget({ budget: parts, rows }: Handoff, prefix: string): string {
  const band = (name: string, unit: string, { low, best, high }: Band, size: (value: number) => string) => [
    define(macro(prefix, `${name}_${unit}`), size(best)),
    define(macro(prefix, `${name}_low_${unit}`), size(low)),
    define(macro(prefix, `${name}_high_${unit}`), size(high)),
  ]
  return [
    comment(
      'Budget, all at the terminals of the battery. Nine draws in ten lie from LOW to HIGH. Charge used so far, in nC:',
      '  wakes * WAKE_NC',
      '  + seconds * (REST_NA + SELF_DISCHARGE_NA)',
      '  + dark seconds * CHARGER_NIGHT_NA',
    ),
    comment('nC: what one wake adds on average, tries in vain included, to what rest takes anyway'),
    ...band('wake', 'nc', parts.wake_nC, uint64),
    comment('nA: flows always, standing drains, idle regulator and leakage included'),
    ...band('rest', 'na', parts.rest_nA, uint32),
    comment("nA: self-discharge of a half full battery at the year's mean temperature"),
    ...band('self_discharge', 'na', parts.selfDischarge_nA, uint32),
    comment('nA: flows too while it is dark; 0 without a charger'),
    ...band('charger_night', 'na', parts.chargerNight_nA, uint32),
    comment('mC: capacity of the whole battery, new (1 mAh is 3600 mC)'),
    ...band('capacity', 'mc', parts.capacity_mC, uint32),
    comment('Expected reports of a day spent in each row, in thousandths'),
    ...rows.flatMap(({ reports_milli }, row) => band(`row${row}_reports`, 'milli', reports_milli, uint32)),
    '',
  ].join('\n')
}
