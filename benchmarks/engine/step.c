/*
 * The twin of src/outlook/step.ts: the same tables, the same arithmetic in the same order. Reads one file that
 * `flatten.ts` wrote, plays every run, prints the seconds it took and writes the end states.
 *
 *   step PLAN STATES
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { STATE_CELLS = 256, TEMPERATURE_CELLS = 160, VOLTAGE_CELLS = 128, RESISTANCE_CELLS = 48 };
#define LOW_C (-60.0)
#define DARK_W_M2 1.0
#define MOST_FADE 0.95

typedef struct {
  double runs, steps, step_s, capacity_C, initial_C, initial_fade, available, keep, share, give_s;
  double open_V_per_K, resistance_ageing, cycle_fade_per_C, voltage_low_V, voltage_step_V, resistance_top_Ohm;
  double down_A, restart_V, enclosure_rise, wakes_per_step;
  double panel_rise, clean, low_C, high_C, full_V, full_state, efficiency, limit_A, night_A, drop_V, converter;
  double holds_power, light_top, light_cells, panel_low_C, panel_step_K, panel_temperature_cells, panel_low_V,
      panel_step_V, panel_voltage_cells;
} Header;

static double table_current(const Header *h, const double *values, double light_W_m2, double cell_C, double volts_V) {
  const int light_cells = (int)h->light_cells, temperature_cells = (int)h->panel_temperature_cells,
            voltage_cells = (int)h->panel_voltage_cells;
  const double light = fmin(fmax(light_W_m2 / h->light_top, 0), 1) * light_cells * light_cells;
  int k = (int)sqrt(light);
  if (k > light_cells - 1) k = light_cells - 1;
  const double kf = (light - (double)k * k) / (2 * k + 1);
  const double warmth = fmin(fmax((cell_C - h->panel_low_C) / h->panel_step_K, 0), temperature_cells);
  int t = (int)warmth;
  if (t > temperature_cells - 1) t = temperature_cells - 1;
  const double tf = warmth - t;
  const double volts = fmin(fmax((volts_V - h->panel_low_V) / h->panel_step_V, 0), voltage_cells);
  int v = (int)volts;
  if (v > voltage_cells - 1) v = voltage_cells - 1;
  const double vf = volts - v;
  const int row = light_cells + 1, slab = (temperature_cells + 1) * row;
  const int a = v * slab + t * row + k, b = a + slab;
  const double cold = values[a] + kf * (values[a + 1] - values[a]);
  const double warm = values[a + row] + kf * (values[a + row + 1] - values[a + row]);
  const double cold_up = values[b] + kf * (values[b + 1] - values[b]);
  const double warm_up = values[b + row] + kf * (values[b + row + 1] - values[b + row]);
  const double low = cold + tf * (warm - cold);
  const double high = cold_up + tf * (warm_up - cold_up);
  const double value = low + vf * (high - low);
  if (value <= 0) return 0;
  return h->holds_power ? value / fmax(volts_V, h->panel_low_V) : value;
}

static void play(const Header *h, const double *by_state, const double *by_temperature, const double *by_voltage,
                 const double *by_resistance, const double *panel, const double *light, const double *air, double *end) {
  double y1 = h->available * h->initial_C, q = h->initial_C, fade = h->initial_fade;
  double in = 0, out = 0, coulombic = 0, self = 0, faded = 0, wakes_done = 0, missed = 0, down_steps = 0, deaths = 0;
  int down = 0;
  const long steps = (long)h->steps;
  const double per_available_C = 1 / (h->available * h->capacity_C), per_ageing = 1 / h->resistance_ageing,
               per_resistance_top_Ohm = 1 / h->resistance_top_Ohm, per_voltage_step_V = 1 / h->voltage_step_V,
               per_step_s = 1 / h->step_s, per_give_s = 1 / h->give_s;
  for (long i = 0; i < steps; i++) {
    const double lit = light[i] * h->clean;
    const double temperature = air[i] + light[i] * h->enclosure_rise;
    const double warmth = fmin(fmax(temperature - LOW_C, 0), TEMPERATURE_CELLS - 1e-9);
    const int t = (int)warmth;
    const double tf = warmth - t;
    const double *row = by_temperature + 4 * t;
    const double usable = row[0] + tf * (row[4] - row[0]);
    const double stiffness = row[1] + tf * (row[5] - row[1]);
    const double kept = row[2] + tf * (row[6] - row[2]);
    const double aged = row[3] + tf * (row[7] - row[3]);

    const double per_whole = 1 / (1 - fade);
    const double head = y1 * per_available_C * per_whole;
    const double depth = (1 - head) / usable;
    const double s = depth < 0 ? 1 : depth > 1 ? 0 : 1 - depth;
    const double place = s * (STATE_CELLS - 1e-9);
    const int p = (int)place;
    const double pf = place - p;
    const double *node = by_state + 2 * p;
    const double open = node[0] + pf * (node[2] - node[0]) + h->open_V_per_K * (temperature - 20);
    const double resistance =
        (node[1] + pf * (node[3] - node[1])) * stiffness * (1 + fade * per_ageing);

    const double rung = RESISTANCE_CELLS * fmin(sqrt(resistance * per_resistance_top_Ohm), 1 - 1e-12);
    const int r = (int)rung;
    const double rf = rung - r;
    const double *need = by_resistance + 2 * r;
    const double needed_awake = need[0] + rf * (need[2] - need[0]);
    const double needed_at_rest = need[1] + rf * (need[3] - need[1]);

    const double volts = fmin(fmax((open - h->voltage_low_V) * per_voltage_step_V, 0), VOLTAGE_CELLS - 1e-9);
    const int v = (int)volts;
    const double vf = volts - v;
    const double *load = by_voltage + 2 * v;
    const double rest_A = load[0] + vf * (load[2] - load[0]);
    const double extra_C = load[1] + vf * (load[3] - load[1]);
    const double wakes = h->wakes_per_step;

    const double needed = wakes > 0 && needed_awake > needed_at_rest ? needed_awake : needed_at_rest;
    if (down) {
      if (s > 0 && open >= h->restart_V && open >= needed) down = 0;
    } else if (s <= 0 || open < needed) {
      down = 1;
      deaths++;
    }
    double load_A;
    if (down) {
      load_A = h->down_A;
      missed += wakes;
      down_steps++;
    } else {
      load_A = rest_A + wakes * extra_C * per_step_s;
      wakes_done += wakes;
    }

    const double left = q * kept;
    self += q - left;
    y1 *= kept;
    q = left;

    double charge_A = 0;
    if (lit < DARK_W_M2) load_A += h->night_A;
    else if (temperature >= h->low_C && temperature <= h->high_C) {
      charge_A = h->converter * table_current(h, panel, lit, air[i] + lit * h->panel_rise, open + h->drop_V);
      const double taper_A = (h->full_V - open) / resistance;
      if (charge_A > h->limit_A) charge_A = h->limit_A;
      if (charge_A > taper_A) charge_A = taper_A > 0 ? taper_A : 0;
    }
    const double ahead = h->keep * y1 + h->share * q;
    double net_A = load_A - h->efficiency * charge_A;
    if (charge_A > 0) {
      const double full = h->full_state * h->capacity_C * (1 - fade);
      const double least = fmax((q - full) * per_step_s, (ahead - h->available * full) * per_give_s);
      if (net_A < least) {
        net_A = fmin(least, load_A);
        charge_A = (load_A - net_A) / h->efficiency;
      }
    }
    const double most = fmin(q * per_step_s, ahead * per_give_s);
    if (net_A > most) {
      net_A = most;
      load_A = net_A + h->efficiency * charge_A;
    }
    y1 = ahead - h->give_s * net_A;
    q -= net_A * h->step_s;
    in += charge_A * h->step_s;
    out += load_A * h->step_s;
    coulombic += (1 - h->efficiency) * charge_A * h->step_s;

    const double worn = fmin(aged + h->cycle_fade_per_C * load_A * h->step_s, MOST_FADE - fade);
    if (worn > 0) {
      const double gone = worn * per_whole;
      faded += q * gone;
      q -= q * gone;
      y1 -= y1 * gone;
      fade += worn;
    }
  }
  const double state[] = {y1, q, fade, in, out, coulombic, self, faded, wakes_done, missed, down_steps, deaths};
  for (int k = 0; k < 12; k++) end[k] = state[k];
}

static double *read_doubles(FILE *file, size_t count) {
  double *values = malloc(count * sizeof(double));
  if (values == NULL || fread(values, sizeof(double), count, file) != count) {
    fprintf(stderr, "the plan file is too short\n");
    exit(1);
  }
  return values;
}

int main(int argc, char **argv) {
  if (argc != 3) return 2;
  FILE *file = fopen(argv[1], "rb");
  if (file == NULL) return 2;
  const Header *h = (const Header *)read_doubles(file, sizeof(Header) / sizeof(double));
  const double *by_state = read_doubles(file, 2 * (STATE_CELLS + 1));
  const double *by_temperature = read_doubles(file, 4 * (TEMPERATURE_CELLS + 1));
  const double *by_voltage = read_doubles(file, 2 * (VOLTAGE_CELLS + 1));
  const double *by_resistance = read_doubles(file, 2 * (RESISTANCE_CELLS + 1));
  const size_t nodes = (size_t)((h->panel_voltage_cells + 1) * (h->panel_temperature_cells + 1) * (h->light_cells + 1));
  const double *panel = read_doubles(file, nodes);
  const size_t runs = (size_t)h->runs, steps = (size_t)h->steps;
  const double *light = read_doubles(file, runs * steps);
  const double *air = read_doubles(file, runs * steps);
  fclose(file);

  double *end = calloc(runs * 12, sizeof(double));
  struct timespec begun, ended;
  clock_gettime(CLOCK_MONOTONIC, &begun);
  for (size_t run = 0; run < runs; run++)
    play(h, by_state, by_temperature, by_voltage, by_resistance, panel, light + run * steps, air + run * steps,
         end + run * 12);
  clock_gettime(CLOCK_MONOTONIC, &ended);
  printf("%.6f\n", (double)(ended.tv_sec - begun.tv_sec) + 1e-9 * (double)(ended.tv_nsec - begun.tv_nsec));

  file = fopen(argv[2], "wb");
  if (file == NULL || fwrite(end, sizeof(double), runs * 12, file) != runs * 12) return 1;
  return fclose(file) == 0 ? 0 : 1;
}
