/** The C11 source: the tables and the few decisions over them, in unsigned whole numbers of at most 32 bits. */
import { type CStyle, originComment } from './c-header.ts'
import { comment, macro, uint16, uint32 } from './c-text.ts'
import type { Alarm, Handoff } from './handoff.ts'

export function cSource(handoff: Handoff, { prefix, bcd }: CStyle): string {
  return [
    originComment(handoff.origin, 'intervals, latch and alarm'),
    `#include "${prefix}.h"`,
    '',
    table(handoff, prefix),
    decisions(prefix),
    ...(handoff.alarm === null ? [] : [nextAlarm(handoff.alarm, prefix, bcd)]),
  ].join('\n')
}

function table({ rows }: Handoff, prefix: string): string {
  return [
    `const struct ${prefix}_row_values ${prefix}_rows[${macro(prefix, 'rows')}] = {`,
    ...rows.map(
      ({ below_mV, above_mV, interval_s }) =>
        `    { ${uint16(below_mV ?? 65_535)}, ${uint16(above_mV ?? 65_535)}, ${uint32(interval_s ?? 0)} },`,
    ),
    '};',
    '',
  ].join('\n')
}

const decisions = (prefix: string) => `\
uint8_t ${prefix}_row(uint16_t battery_mv, uint8_t row)
{
    if (row >= ${macro(prefix, 'rows')}) {
        row = (uint8_t)(${macro(prefix, 'rows')} - 1u); /* memory was lost: begin with the most thrifty */
    }
    while (row + 1u < ${macro(prefix, 'rows')} && battery_mv < ${prefix}_rows[row + 1u].below_mv) {
        row++;
    }
    while (row > 0u && battery_mv > ${prefix}_rows[row].above_mv) {
        row--;
    }
    return row;
}

bool ${prefix}_is_low(uint16_t battery_mv, bool was_low)
{
    if (battery_mv < ${macro(prefix, 'low_mv')}) {
        return true;
    }
    return was_low && battery_mv < ${macro(prefix, 'restart_mv')};
}
`

function nextAlarm(alarm: Alarm, prefix: string, bcd: boolean): string {
  const read = (name: string) => (bcd ? `binary(${name})` : name)
  const write = (value: string) => (bcd ? `bcd((uint8_t)(${value}))` : `(uint8_t)(${value})`)
  return [
    ...(bcd ? [BCD] : []),
    `#define DAY_S UINT32_C(86400)\n`,
    `uint32_t ${prefix}_clock(uint16_t day, uint8_t hour, uint8_t minute, uint8_t second)
{
    return day * DAY_S + ${read('hour')} * UINT32_C(3600) + ${read('minute')} * UINT32_C(60) + ${read('second')};
}
`,
    ...(alarm.kind === 'times-of-day' ? [times(alarm.times_s)] : [interval(prefix)]),
    `struct ${prefix}_alarm ${prefix}_next_alarm(uint32_t now_s, uint8_t row)
{
    struct ${prefix}_alarm alarm;
    uint32_t second;

${AHEAD[alarm.kind]}
    alarm.at_s = now_s + alarm.ahead_s;
    alarm.skips = (uint16_t)((alarm.ahead_s - 1u) / DAY_S);
    second = alarm.at_s % DAY_S;
    alarm.hour = ${write('second / 3600u')};
    second %= 3600u;
    alarm.minute = ${write('second / 60u')};
    alarm.second = ${write('second % 60u')};
    return alarm;
}
`,
  ].join('\n')
}

const BCD = `\
static uint8_t bcd(uint8_t value)
{
    return (uint8_t)(value / 10u * 16u + value % 10u);
}

static uint8_t binary(uint8_t value)
{
    return (uint8_t)(value / 16u * 10u + value % 16u);
}
`

const interval = (prefix: string) => `\
static uint32_t interval_s(uint8_t row)
{
    return ${prefix}_rows[row < ${macro(prefix, 'rows')} ? row : ${macro(prefix, 'rows')} - 1u].interval_s;
}
`

const times = (times_s: readonly number[]) =>
  [
    comment('Seconds since midnight, rising'),
    `static const uint32_t times_s[] = { ${times_s.map(uint32).join(', ')} };`,
    '',
    `static uint32_t until_next(uint32_t second)
{
    for (uint16_t i = 0; i < sizeof times_s / sizeof times_s[0]; i++) {
        if (times_s[i] > second) {
            return times_s[i] - second;
        }
    }
    return DAY_S - second + times_s[0];
}
`,
  ].join('\n')

/** How far ahead of `now_s` the alarm lies. */
const AHEAD: Readonly<Record<Alarm['kind'], string>> = {
  rest: '    alarm.ahead_s = interval_s(row);',
  rate: '    alarm.ahead_s = interval_s(row) - now_s % interval_s(row);',
  'clock-minutes': '    alarm.ahead_s = interval_s(row) - now_s % 60u; /* at a change of the minute */',
  'times-of-day': '    (void)row; /* there is only one */\n    alarm.ahead_s = until_next(now_s % DAY_S);',
}
