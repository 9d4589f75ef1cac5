import type { BufferSet } from '#domain/avian/bird-settings.ts'
import { bufferSetInForce, SHIPPED_BUFFER_SETS } from '#domain/avian/nests/buffer-sets.ts'
import { dayInWords } from '#domain/avian/nests/calendar-days.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { inWords, length } from '../../state/format.ts'
import { useSelection } from '../../state/selection.ts'
import { localToday } from '../../state/today.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { BufferSetForm } from './buffer-set-form.tsx'
import { copyOfSet } from './own-entries.ts'
import { Section } from './section.tsx'
import type { SectionProps } from './section-props.ts'

/** Which recommendation of distances and seasons counts around nests; own ones begin as copies. */
export function BuffersSection({ settings, onChange }: SectionProps) {
  const { bufferSets } = settings
  const inForce = bufferSetInForce(settings)
  const isOwn = inForce !== null && bufferSets.some(({ id }) => id === inForce.id)
  const copy = () => {
    if (!inForce) return
    const own = copyOfSet(inForce, bufferSets, localToday())
    onChange({ bufferSets: [...bufferSets, own], bufferSetId: own.id })
  }
  const replace = (changed: BufferSet) =>
    onChange({ bufferSets: bufferSets.map((set) => (set.id === changed.id ? changed : set)) })
  const drop = (id: string) =>
    onChange({
      bufferSets: bufferSets.filter((set) => set.id !== id),
      bufferSetId: undefined,
    })
  return (
    <Section title="Nest buffers" now={inForce?.region ?? 'as recorded with each nest'}>
      <p className="small">
        Advisory: the agency decides. A set in force goes before what is recorded with a nest.
      </p>
      <Field label="Set in force">
        {(control) => (
          <select
            className="input"
            value={inForce?.id ?? ''}
            onChange={({ target }) => onChange({ bufferSetId: target.value || undefined })}
            {...control}
          >
            <option value="">none: as recorded with each nest</option>
            {[...bufferSets, ...SHIPPED_BUFFER_SETS].map(({ id, region }) => (
              <option key={id} value={id}>
                {region}
              </option>
            ))}
          </select>
        )}
      </Field>
      {inForce && !isOwn && <ShippedSet set={inForce} />}
      {inForce && isOwn && <BufferSetForm key={inForce.id} set={inForce} onChange={replace} />}
      {inForce && (
        <div className="row">
          <Button onClick={copy}>Copy this set to edit it</Button>
          {isOwn && <Button onClick={() => drop(inForce.id)}>Remove this set</Button>}
        </div>
      )}
    </Section>
  )
}

function ShippedSet({ set }: { readonly set: BufferSet }) {
  const { units } = useSelection()
  return (
    <>
      <p className="small soft">
        {set.source} ({set.sourceDate})
      </p>
      <ul className="bird-facts small">
        {set.rules.map(({ species, distanceM, from, to, sureness }) => (
          <li key={species}>
            {species}: {inWords(length(distanceM, units))}, {dayInWords(from)} to {dayInWords(to)}{' '}
            <HowSure sureness={sureness} />
          </li>
        ))}
      </ul>
    </>
  )
}
