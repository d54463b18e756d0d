/** Where it stands, how the panel is mounted, and what the sky does there. */
import { useFolder } from '../draft/folder.ts'
import { Field } from '../form/field.tsx'
import { type Form, useForm } from '../form/form.ts'

const WEATHER = ['place', 'weather'] as const
/** The sources that the file knows, in words; the first key of each says which it is. */
const KINDS = {
  place: 'a built-in place with a like climate',
  file: 'a weather year in a file',
  sunshine: 'hours of sunshine, month by month',
  irradiation: 'irradiation, month by month',
} as const
type Kind = keyof typeof KINDS

/** Twelve values to begin with, which the user then makes true: a middling climate at 50° N, from memory. */
const MIDDLING = {
  sunshine: '1.7 2.6 3.9 5.4 6.5 6.7 6.8 6.4 4.9 3.3 2.0 1.4 h',
  irradiation: '0.8 1.5 2.6 4.0 5.0 5.3 5.2 4.4 3.1 1.8 0.9 0.6 kWh/m²/d',
  temperature: '3 3 6 9 13 16 18 18 15 11 6 4 °C',
  'daily range': '5 6 7 9 10 10 10 10 9 7 5 5 K',
} as const

function kindOf(form: Form): Kind {
  const keys = form.entriesAt(WEATHER).map(String)
  return (Object.keys(KINDS) as Kind[]).find((kind) => keys.includes(kind)) ?? 'place'
}

export function PlaceForm({ hasPanel }: { readonly hasPanel: boolean }) {
  return (
    <section className="part" aria-labelledby="where">
      <h2 id="where">Where it stands</h2>
      <div className="fields">
        <Field path={['place', 'latitude']} label="Latitude, north of the equator" />
        <Field path={['place', 'longitude']} label="Longitude, east of Greenwich" />
        <Field path={['place', 'elevation']} label="Elevation" />
        <Field path={['place', 'zone']} label="Time zone" />
      </div>
      {hasPanel && (
        <>
          <h3>How the panel is mounted</h3>
          <div className="fields">
            <Field path={['place', 'tilt']} label="Tilt: 0 flat, 90 upright" />
            <Field path={['place', 'azimuth']} label="Looks towards, from north" />
            <Field path={['place', 'albedo']} label="Ground throws back" />
            <Field path={['place', 'soiling']} label="Lost to dirt" />
          </div>
        </>
      )}
      <h3>What the sky does</h3>
      <WeatherForm />
    </section>
  )
}

function WeatherForm() {
  const form = useForm()
  const folder = useFolder()
  const kind = kindOf(form)
  const places = folder.is === 'there' ? folder.folder.places : []
  const files = folder.is === 'there' ? folder.folder.weather : []
  const change = (next: Kind) => {
    if (next === kind) return
    const first = next === 'place' ? 'London' : next === 'file' ? (files[0] ?? 'year.epw') : MIDDLING[next]
    const months = next === 'sunshine' || next === 'irradiation'
    form.addEntry(['place'], 'weather', {
      [next]: first,
      ...(months ? { temperature: MIDDLING.temperature, 'daily range': MIDDLING['daily range'] } : {}),
    })
  }
  return (
    <>
      <div className="fields">
        <div className="field is-wide">
          <label htmlFor="weather-kind">Known by</label>
          <select id="weather-kind" value={kind} onChange={(event) => change(event.target.value as Kind)}>
            {Object.entries(KINDS).map(([key, words]) => (
              <option key={key} value={key}>
                {words}
              </option>
            ))}
          </select>
        </div>
        {kind === 'place' && <Field path={[...WEATHER, 'place']} label="Built-in place" offers={places} />}
        {kind === 'file' && (
          <Field
            path={[...WEATHER, 'file']}
            label="Weather year (EPW, TMY3 or hourly CSV)"
            offers={files}
            hint="A file beside the outpost file."
          />
        )}
        <Field
          path={['place', 'enclosure rise']}
          label="Cell warmer than the air in full sun"
          hint="A sealed box in the sun grows hot; most lithium cells must not be charged above 45 °C. See the maker's data sheet."
        />
      </div>
      {(kind === 'sunshine' || kind === 'irradiation') && (
        <div className="monthly">
          <Field
            path={[...WEATHER, kind]}
            label={
              kind === 'sunshine'
                ? 'Sunshine a day, January to December'
                : 'Irradiation on the flat, January to December'
            }
          />
          <Field path={[...WEATHER, 'temperature']} label="Mean temperature" />
          <Field path={[...WEATHER, 'daily range']} label="Daily maximum less minimum" />
        </div>
      )}
    </>
  )
}
