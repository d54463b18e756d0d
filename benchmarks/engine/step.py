"""The step function of src/outlook/step.ts in NumPy, vectorised over the runs: step by step, all runs at once.

    step.py PLAN STATES     reads what flatten.ts wrote, prints the seconds it took, writes the end states
"""

import sys
import time

import numpy as np

STATE_CELLS, TEMPERATURE_CELLS, VOLTAGE_CELLS, RESISTANCE_CELLS = 256, 160, 128, 48
LOW_C, DARK_W_M2, MOST_FADE = -60.0, 1.0, 0.95
NAMES = (
    "runs steps step_s capacity_C initial_C initial_fade available keep share give_s open_V_per_K resistance_ageing "
    "cycle_fade_per_C voltage_low_V voltage_step_V resistance_top_Ohm down_A restart_V enclosure_rise wakes_per_step "
    "panel_rise clean low_C high_C full_V full_state efficiency limit_A night_A drop_V converter holds_power light_top light_cells "
    "panel_low_C panel_step_K panel_temperature_cells panel_low_V panel_step_V panel_voltage_cells"
).split()


def table_current(h, values, light_W_m2, cell_C, volts_V):
    light_cells, warm_cells, volt_cells = int(h["light_cells"]), int(h["panel_temperature_cells"]), int(h["panel_voltage_cells"])
    light = np.clip(light_W_m2 / h["light_top"], 0, 1) * light_cells * light_cells
    k = np.minimum(np.sqrt(light).astype(np.int64), light_cells - 1)
    kf = (light - k * k) / (2 * k + 1)
    warmth = np.clip((cell_C - h["panel_low_C"]) / h["panel_step_K"], 0, warm_cells)
    t = np.minimum(warmth.astype(np.int64), warm_cells - 1)
    tf = warmth - t
    volts = np.clip((volts_V - h["panel_low_V"]) / h["panel_step_V"], 0, volt_cells)
    v = np.minimum(volts.astype(np.int64), volt_cells - 1)
    vf = volts - v
    row = light_cells + 1
    slab = (warm_cells + 1) * row
    a = v * slab + t * row + k
    b = a + slab

    def along(i):
        return values[i] + kf * (values[i + 1] - values[i])

    cold, warm, cold_up, warm_up = along(a), along(a + row), along(b), along(b + row)
    low = cold + tf * (warm - cold)
    high = cold_up + tf * (warm_up - cold_up)
    value = low + vf * (high - low)
    current = value / np.maximum(volts_V, h["panel_low_V"]) if h["holds_power"] else value
    return np.where(value <= 0, 0, current)


def between(table, width, column, place, fraction):
    return table[width * place + column] + fraction * (table[width * (place + 1) + column] - table[width * place + column])


def play(h, by_state, by_temperature, by_voltage, by_resistance, panel, light, air):
    runs = int(h["runs"])
    y1 = np.full(runs, h["available"] * h["initial_C"])
    q = np.full(runs, h["initial_C"])
    fade = np.full(runs, h["initial_fade"])
    charged, out, coulombic, self_loss, faded, done, missed, down_steps, deaths = (np.zeros(runs) for _ in range(9))
    down = np.zeros(runs, dtype=bool)
    step_s, wakes = h["step_s"], h["wakes_per_step"]
    per_available_C, per_ageing = 1 / (h["available"] * h["capacity_C"]), 1 / h["resistance_ageing"]
    per_resistance_top_Ohm, per_voltage_step_V = 1 / h["resistance_top_Ohm"], 1 / h["voltage_step_V"]
    per_step_s, per_give_s = 1 / step_s, 1 / h["give_s"]
    for i in range(int(h["steps"])):
        lit = light[i] * h["clean"]
        temperature = air[i] + light[i] * h["enclosure_rise"]
        warmth = np.clip(temperature - LOW_C, 0, TEMPERATURE_CELLS - 1e-9)
        t = warmth.astype(np.int64)
        tf = warmth - t
        usable = between(by_temperature, 4, 0, t, tf)
        stiffness = between(by_temperature, 4, 1, t, tf)
        kept = between(by_temperature, 4, 2, t, tf)
        aged = between(by_temperature, 4, 3, t, tf)

        per_whole = 1 / (1 - fade)
        head = y1 * per_available_C * per_whole
        depth = (1 - head) / usable
        s = np.where(depth < 0, 1, np.where(depth > 1, 0, 1 - depth))
        place = s * (STATE_CELLS - 1e-9)
        p = place.astype(np.int64)
        pf = place - p
        opened = between(by_state, 2, 0, p, pf) + h["open_V_per_K"] * (temperature - 20)
        resistance = between(by_state, 2, 1, p, pf) * stiffness * (1 + fade * per_ageing)

        rung = RESISTANCE_CELLS * np.minimum(np.sqrt(resistance * per_resistance_top_Ohm), 1 - 1e-12)
        r = rung.astype(np.int64)
        rf = rung - r
        awake, rest = between(by_resistance, 2, 0, r, rf), between(by_resistance, 2, 1, r, rf)
        volts = np.clip((opened - h["voltage_low_V"]) * per_voltage_step_V, 0, VOLTAGE_CELLS - 1e-9)
        v = volts.astype(np.int64)
        vf = volts - v
        rest_A, extra_C = between(by_voltage, 2, 0, v, vf), between(by_voltage, 2, 1, v, vf)

        needed = np.maximum(awake, rest) if wakes > 0 else rest
        falls = ~down & ((s <= 0) | (opened < needed))
        rises = down & (s > 0) & (opened >= h["restart_V"]) & (opened >= needed)
        down = (down | falls) & ~rises
        deaths += falls
        load_A = np.where(down, h["down_A"], rest_A + wakes * extra_C * per_step_s)
        missed += np.where(down, wakes, 0)
        down_steps += down
        done += np.where(down, 0, wakes)

        left = q * kept
        self_loss += q - left
        y1 = y1 * kept
        q = left

        dark = lit < DARK_W_M2
        load_A = np.where(dark, load_A + h["night_A"], load_A)
        charge_A = h["converter"] * table_current(h, panel, lit, air[i] + lit * h["panel_rise"], opened + h["drop_V"])
        taper_A = (h["full_V"] - opened) / resistance
        charge_A = np.minimum(charge_A, h["limit_A"])
        charge_A = np.where(charge_A > taper_A, np.maximum(taper_A, 0), charge_A)
        charge_A = np.where(dark | (temperature < h["low_C"]) | (temperature > h["high_C"]), 0, charge_A)

        ahead = h["keep"] * y1 + h["share"] * q
        net_A = load_A - h["efficiency"] * charge_A
        full = h["full_state"] * h["capacity_C"] * (1 - fade)
        least = np.maximum((q - full) * per_step_s, (ahead - h["available"] * full) * per_give_s)
        over = (charge_A > 0) & (net_A < least)
        net_A = np.where(over, np.minimum(least, load_A), net_A)
        charge_A = np.where(over, (load_A - net_A) / h["efficiency"], charge_A)
        most = np.minimum(q * per_step_s, ahead * per_give_s)
        short = net_A > most
        net_A = np.where(short, most, net_A)
        load_A = np.where(short, net_A + h["efficiency"] * charge_A, load_A)
        y1 = ahead - h["give_s"] * net_A
        q = q - net_A * step_s
        charged += charge_A * step_s
        out += load_A * step_s
        coulombic += (1 - h["efficiency"]) * charge_A * step_s

        worn = np.maximum(np.minimum(aged + h["cycle_fade_per_C"] * load_A * step_s, MOST_FADE - fade), 0)
        gone = worn * per_whole
        faded += q * gone
        q = q - q * gone
        y1 = y1 - y1 * gone
        fade = fade + worn
    return np.stack([y1, q, fade, charged, out, coulombic, self_loss, faded, done, missed, down_steps, deaths], axis=1)


def main(plan, states):
    data = np.fromfile(plan)
    h = dict(zip(NAMES, data))
    at = len(NAMES)

    def take(count):
        nonlocal at
        at += count
        return data[at - count : at]

    tables = [take(2 * (STATE_CELLS + 1)), take(4 * (TEMPERATURE_CELLS + 1)), take(2 * (VOLTAGE_CELLS + 1)), take(2 * (RESISTANCE_CELLS + 1))]
    panel = take(int((h["panel_voltage_cells"] + 1) * (h["panel_temperature_cells"] + 1) * (h["light_cells"] + 1)))
    runs, steps = int(h["runs"]), int(h["steps"])
    # Steps first, so that each step reads one stretch of memory.
    light = np.ascontiguousarray(take(runs * steps).reshape(runs, steps).T)
    air = np.ascontiguousarray(take(runs * steps).reshape(runs, steps).T)
    begun = time.perf_counter()
    end = play(h, *tables, panel, light, air)
    print(f"{time.perf_counter() - begun:.6f}")
    end.tofile(states)


main(*sys.argv[1:3])
