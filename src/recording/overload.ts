/**
 * Codes for "no number": bench instruments answer 9.9E+37 for overload and 9.91E+37 for not a number (SCPI-99, volume 1,
 * section 7.2.1; from memory). No current, voltage or time is so large, and float32 ends not far above.
 */
export const OVERLOAD_POWER = 30
export const OVERLOAD = 10 ** OVERLOAD_POWER
