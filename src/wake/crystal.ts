/**
 * What a real-time clock's crystal does to the times of wakes. Parts per million (negative: the clock loses), °C.
 * A 32.768 kHz tuning-fork crystal loses as the square of the distance from its turn-over temperature; constants from
 * memory, typical of data sheets: −0.034 ± 0.006 ppm/K² about 25 ± 5 °C. The tolerance at 25 °C (often ± 20 ppm) comes on top.
 */
const PARABOLA_ppm_per_K2 = -0.034
const TURN_OVER_C = 25

/**
 * Mean rate error over a sinusoidal temperature of mean `mean_C` and amplitude `amplitude_K`: k ((mean − T0)² + amplitude² / 2);
 * amplitude 0 gives the error at one temperature. One ppm is 0.0864 s a day.
 */
export function crystalError_ppm(mean_C: number, amplitude_K: number): number {
  return PARABOLA_ppm_per_K2 * ((mean_C - TURN_OVER_C) ** 2 + amplitude_K ** 2 / 2)
}
