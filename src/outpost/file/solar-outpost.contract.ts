/** A file with every section, with nothing wrong in it. */
export const SOLAR = `overwinter: 1
title: Gauge on a weir
wake:
  steps:
    - name: sense
      for: 1 s
      draws: 8 mA
    - name: send
      for: 3 s
      draws: 40 mA
      peak: 90 mA for 10 ms
      retries: { probability: 5 %, times: 2, backoff: 5 s, lasts: 2 s }
      reports: 1
cadence:
  rate: 10 min
rest: 20 µA
standing:
  - { name: divider, draws: 2 µA, from: cell }
resume: continue
keeps:
  - { name: counter, size: 16 B, memory: flash, endurance: 10000, page: 4096 B, pages: 8 }
supply:
  cell: { type: Li-ion, capacity: 2000 mAh }
  regulator: { kind: linear, output: 3.0 V, drop-out: 150 mV, quiescent: 2 µA }
  capacitor: { capacitance: 220 µF, ESR: 0.1 Ω, leakage: 1 µA, rating: 6.3 V }
  brownout: 2.6 V
  restart above: 3.4 V
  charger: { kind: linear, drop-out: 150 mV, limit: 100 mA, quiescent: 2 µA, full: 4.2 V, cold lock-out: 0 °C, highest input: 12 V }
  panel: { open circuit: 7 V, short circuit: 90 mA, maximum power: 5.8 V at 82 mA }
place:
  latitude: 58.3
  longitude: 6.6
  elevation: 4 m
  zone: Europe/Oslo
  tilt: 70
  azimuth: 180
  horizon: { 90: 5, 180: 9 }
  soiling: 3 %
  weather:
    sunshine: 1.0 2.4 3.9 5.6 7.2 7.6 7.0 6.0 4.1 2.5 1.3 0.7 h
    temperature: 1 1 3 6 10 13 15 15 12 9 5 2 °C
    daily range: 4 5 6 7 7 7 6 6 6 5 4 4 K
aims:
  winters: 95 %
  reports per day: 100
  years: 5
`
