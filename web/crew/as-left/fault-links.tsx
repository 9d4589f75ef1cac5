import { Button } from '../../ui/button.tsx'
import { type FormShape, formFields } from './as-left-fields.ts'
import type { Faults } from './check-as-left.ts'

interface Props {
  readonly shape: FormShape
  readonly faults: Faults
  /** Leads to the field of this name. */
  readonly onGo: (name: string) => void
}

/** What is still in the way, each fault a way to its field, which may be far up the page. */
export function FaultLinks({ shape, faults, onGo }: Props) {
  const all = Object.entries(faults)
  if (all.length === 0) return null
  const labels = new Map(formFields(shape).map(({ key, label }) => [key, label]))
  return (
    <div className="in-the-way" role="alert">
      <strong>Not entered.</strong>
      <ul className="fault-links">
        {all.map(([name, fault]) => (
          <li key={name}>
            <Button look="plain" onClick={() => onGo(name)}>
              {labels.get(name) ?? name}: {fault}
            </Button>
          </li>
        ))}
      </ul>
    </div>
  )
}
