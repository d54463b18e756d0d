/*
 * Runs the functions that were handed over on records from standard input and writes their answers to standard output,
 * both in the machine's own byte order. Rows and latch carry over from record to record.
 */
#include <stdio.h>
#include "outpost.h"

struct question {
    uint32_t now_s;
    uint16_t battery_mv;
    uint16_t was_low; /* 0 or 1; 2: as answered last */
};

struct answer {
    uint32_t at_s;
    uint32_t ahead_s;
    uint16_t skips;
    uint8_t hour, minute, second;
    uint8_t row;
    uint8_t low;
    uint8_t unused;
};

int main(void)
{
    struct question asked;
    uint8_t row = 0;
    bool low = false;

    while (fread(&asked, sizeof asked, 1, stdin) == 1) {
        struct outpost_alarm alarm;
        struct answer answer = {0};

        row = outpost_row(asked.battery_mv, row);
        low = outpost_is_low(asked.battery_mv, asked.was_low == 2u ? low : asked.was_low != 0u);
        alarm = outpost_next_alarm(asked.now_s, row);
        answer.at_s = alarm.at_s;
        answer.ahead_s = alarm.ahead_s;
        answer.skips = alarm.skips;
        answer.hour = alarm.hour;
        answer.minute = alarm.minute;
        answer.second = alarm.second;
        answer.row = row;
        answer.low = low;
        if (fwrite(&answer, sizeof answer, 1, stdout) != 1) {
            return 1;
        }
    }
    return 0;
}
