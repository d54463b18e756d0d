/** Paths of the sun over the place, and the skyline in front of them, drawn by mouse, touch or keys. */
import { scaleLinear } from 'd3-scale'
import { line } from 'd3-shape'
import { type KeyboardEvent, type PointerEvent, useMemo, useState } from 'react'
import { MONTH_STARTS } from '../../sky/calendar.ts'
import type { Place } from '../../sky/place.ts'
import { AxisX, AxisY } from '../figure/axes.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { useForm } from '../form/form.ts'
import { dayShown, numberShown } from '../look/shown.ts'
import { type SkylinePoint, skylineEdits, skylineOf } from './skyline-edits.ts'
import { focusPoint, isRemoving, pointAfterKey } from './skyline-keys.ts'
import { type SunAt, type SunPath, sunHours, sunPaths } from './sun-paths.ts'

const WINDS: Readonly<Record<number, string>> = {
  0: 'N',
  45: 'NE',
  90: 'E',
  135: 'SE',
  180: 'S',
  225: 'SW',
  270: 'W',
  315: 'NW',
  360: 'N',
}
const HIGHEST_DEG = 80
/** Solstices and equinoxes are drawn darker, and named. */
const NAMED_MONTHS = [2, 5, 11]

export function SunFigure({
  place,
  panelAzimuth_deg,
}: {
  readonly place: Place
  readonly panelAzimuth_deg: number | null
}) {
  const form = useForm()
  const [ref, width] = useWidth()
  const [drag, setDrag] = useState<{ readonly index: number; readonly point: SkylinePoint } | null>(null)
  const { latitude_deg, longitude_deg, zone_h } = place
  const paths = useMemo(
    () => sunPaths({ latitude_deg, longitude_deg, zone_h }, new Date().getFullYear()),
    [latitude_deg, longitude_deg, zone_h],
  )
  const written = skylineOf(form)
  const points = drag === null ? written : written.map((point, i) => (i === drag.index ? drag.point : point))
  const isSouth = latitude_deg < 0
  const shift = isSouth ? 180 : 0
  const across = (azimuth_deg: number) => (azimuth_deg + shift) % 360
  const frame = {
    width,
    height: Math.round(Math.min(430, Math.max(270, width * 0.5))),
    left: 40,
    right: 14,
    top: 22,
    bottom: 44,
  }
  const x = scaleLinear([0, 360], [frame.left, width - frame.right])
  const y = scaleLinear([0, HIGHEST_DEG], [frame.height - frame.bottom, frame.top])
  const dark = isSouth ? paths[5] : paths[11]
  const bright = isSouth ? paths[11] : paths[5]
  const words = [dark, bright].map((path) => hoursWords(path, points))

  const pointAt = (event: PointerEvent<Element>, svg: SVGSVGElement) => {
    const box = svg.getBoundingClientRect()
    const azimuth = x.invert(((event.clientX - box.left) * width) / box.width) - shift
    return {
      azimuth_deg: Math.round((azimuth + 720) % 360),
      elevation_deg: Math.round(
        Math.min(90, Math.max(0, y.invert(((event.clientY - box.top) * frame.height) / box.height))),
      ),
    }
  }
  const svgOf = (event: PointerEvent<Element>) => event.currentTarget.closest('svg') as SVGSVGElement
  const move = (from: SkylinePoint, to: { azimuth_deg: number; elevation_deg: number } | null) =>
    form.inOneStep(
      to === null ? `taking the skyline's point at ${from.azimuth_deg}° away` : 'the horizon',
      skylineEdits(from, to),
    )
  const onKey = (event: KeyboardEvent, point: SkylinePoint) => {
    const to = pointAfterKey(event.key, point, written)
    if (to === null && !isRemoving(event.key)) return
    event.preventDefault()
    move(point, to)
    focusPoint(event.currentTarget.closest('figure'), (to ?? point).azimuth_deg)
  }
  const add = () => {
    const centre = isSouth ? 0 : 180
    const free = [0, 30, -30, 60, -60, 90, -90, 120, -120, 150, -150, 180, 15, -15, 45, -45]
      .map((off) => (centre + off + 360) % 360)
      .find((azimuth) => written.every((point) => point.azimuth_deg !== azimuth))
    if (free === undefined) return
    form.inOneStep(
      `adding to the skyline at ${free}°`,
      skylineEdits(null, { azimuth_deg: free, elevation_deg: 10 }),
    )
  }

  return (
    <FigureFrame
      name="sun-paths"
      title="The sun and the skyline"
      controls={
        <button type="button" className="quiet" onClick={add}>
          Add a point to the skyline
        </button>
      }
      caption={
        <>
          Paths of the sun on the 21st of each month, with hours of the place's standard time
          {panelAzimuth_deg !== null && '; the dashed line is where the panel looks'}. In front of them stands
          the skyline of the file. {words[0]} {words[1]} Drag a point, or focus it: arrow keys move it, Delete
          removes it.
          {points.length === 0 && ' No skyline is stated: the horizon is taken as free.'}
        </>
      }
      table={{
        head: ['month', 'highest (°)', 'sun, free horizon (h)', 'sun, over the skyline (h)'],
        rows: paths.map((path) => {
          const { free_h, seen_h } = sunHours(path, points)
          const top = Math.max(...path.points.map(({ elevation_deg }) => elevation_deg))
          return [monthName(path.month), plain(top, 3), plain(free_h, 3), plain(seen_h, 3)]
        }),
      }}
    >
      <div ref={ref}>
        <svg viewBox={`0 0 ${width} ${frame.height}`} className="sun-figure">
          <title>Paths of the sun over the skyline</title>
          <AxisY
            frame={frame}
            scale={y}
            label="elevation"
            ticks={[0, 20, 40, 60, 80]}
            format={(value) => `${value}°`}
          />
          {paths.map((path) => (
            <Path
              key={path.month}
              path={path}
              isNamed={NAMED_MONTHS.includes(path.month)}
              across={across}
              x={x}
              y={y}
            />
          ))}
          <path className="skyline" d={skylinePath(points, across, x, y)} />
          {panelAzimuth_deg !== null && (
            <line
              className="pen-accent dashed"
              x1={x(across((panelAzimuth_deg + 360) % 360))}
              x2={x(across((panelAzimuth_deg + 360) % 360))}
              y1={frame.top}
              y2={y(0)}
            />
          )}
          <AxisX
            frame={frame}
            scale={x}
            label="direction"
            ticks={width < 480 ? [0, 90, 180, 270, 360] : [0, 45, 90, 135, 180, 225, 270, 315, 360]}
            format={(value) => WINDS[(value + shift) % 360]}
          />
          {points.map((point, index) => (
            <circle
              key={written[index].key}
              className="handle skyline-point"
              data-azimuth={point.azimuth_deg}
              cx={x(across(point.azimuth_deg))}
              cy={y(point.elevation_deg)}
              r={7}
              role="slider"
              tabIndex={0}
              aria-label={`Skyline at ${WINDS[point.azimuth_deg] ?? `${point.azimuth_deg}°`}`}
              aria-valuemin={0}
              aria-valuemax={90}
              aria-valuenow={point.elevation_deg}
              aria-valuetext={`${point.elevation_deg}° high at ${point.azimuth_deg}°`}
              onKeyDown={(event) => onKey(event, written[index])}
              onPointerDown={(event) => {
                event.currentTarget.setPointerCapture(event.pointerId)
                setDrag({ index, point })
              }}
              onPointerMove={(event) => {
                if (drag?.index === index)
                  setDrag({ index, point: { ...pointAt(event, svgOf(event)), key: point.key } })
              }}
              onPointerUp={() => {
                if (drag === null) return
                const { point: to } = drag
                const isFree = written.every(
                  (other, i) => i === index || other.azimuth_deg !== to.azimuth_deg,
                )
                if (isFree) move(written[index], to)
                setDrag(null)
              }}
              onPointerCancel={() => setDrag(null)}
            />
          ))}
        </svg>
      </div>
    </FigureFrame>
  )
}

const monthName = (month: number): string => dayShown(MONTH_STARTS[month] + 20, { month: 'long' })

function hoursWords(path: SunPath, points: readonly SkylinePoint[]): string {
  const { free_h, seen_h } = sunHours(path, points)
  const day = dayShown(MONTH_STARTS[path.month] + 20)
  if (free_h === 0) return `On ${day} the sun does not rise.`
  const hours = (h: number) => `${numberShown(h)} ${h === 1 ? 'hour' : 'hours'}`
  return seen_h === free_h
    ? `On ${day} the sun shines for up to ${hours(free_h)}, of which the skyline takes none.`
    : `On ${day} the sun would shine for up to ${hours(free_h)}, and shows above the skyline for ${hours(seen_h)}.`
}

interface PathProps {
  readonly path: SunPath
  readonly isNamed: boolean
  readonly across: (azimuth_deg: number) => number
  readonly x: (value: number) => number
  readonly y: (value: number) => number
}

function Path({ path, isNamed, across, x, y }: PathProps) {
  const parts = risen(path.points, across)
  const drawn = line<SunAt>(
    (sun) => x(across(sun.azimuth_deg)),
    (sun) => y(Math.max(0, Math.min(HIGHEST_DEG, sun.elevation_deg))),
  )
  const top = path.points.reduce((a, b) => (b.elevation_deg > a.elevation_deg ? b : a))
  return (
    <g>
      {parts.map((part) => (
        <path key={part[0].hour} className={isNamed ? 'pen' : 'pen faint-pen'} d={drawn(part) ?? ''} />
      ))}
      {isNamed &&
        path.points
          .filter(({ hour, elevation_deg }) => hour < 24 && hour % 3 === 0 && elevation_deg > 1)
          .map((sun) => (
            <g key={sun.hour} transform={`translate(${x(across(sun.azimuth_deg))},${y(sun.elevation_deg)})`}>
              <circle r={2.2} />
              <text className="faint" dy={-6} textAnchor="middle">
                {sun.hour}
              </text>
            </g>
          ))}
      {isNamed && top.elevation_deg > 0 && (
        <text
          x={x(across(top.azimuth_deg))}
          y={y(Math.min(HIGHEST_DEG, top.elevation_deg)) - 20}
          textAnchor="middle"
        >
          {monthName(path.month)}
        </text>
      )}
    </g>
  )
}

/** Stretches above the horizon, broken where the drawing's edge is crossed. */
function risen(points: readonly SunAt[], across: (azimuth_deg: number) => number): SunAt[][] {
  const parts: SunAt[][] = []
  let part: SunAt[] = []
  for (const sun of points) {
    const last = part.at(-1)
    const jumps = last !== undefined && Math.abs(across(sun.azimuth_deg) - across(last.azimuth_deg)) > 180
    if (sun.elevation_deg <= 0 || jumps) {
      if (part.length > 1) parts.push(part)
      part = []
    }
    if (sun.elevation_deg > 0) part.push(sun)
  }
  if (part.length > 1) parts.push(part)
  return parts
}

/** A closed outline: linear between points as the engine takes it, and round the ring at the edges. */
function skylinePath(
  points: readonly SkylinePoint[],
  across: (azimuth_deg: number) => number,
  x: (value: number) => number,
  y: (value: number) => number,
): string {
  if (points.length === 0) return ''
  const placed = points.map((point) => ({ at: across(point.azimuth_deg), high: point.elevation_deg }))
  placed.sort((a, b) => a.at - b.at)
  const first = placed[0]
  const last = placed[placed.length - 1]
  const gap = first.at + 360 - last.at
  const edge = gap === 0 ? first.high : last.high + ((360 - last.at) / gap) * (first.high - last.high)
  const outline = [{ at: 0, high: edge }, ...placed, { at: 360, high: edge }]
  return `M${x(0)},${y(0)}${outline.map(({ at, high }) => `L${x(at)},${y(high)}`).join('')}L${x(360)},${y(0)}Z`
}
