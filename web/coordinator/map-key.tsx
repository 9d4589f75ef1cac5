import { SYMBOL_PATHS, type SymbolName } from './map-symbols.ts'

const ENTRIES: readonly (readonly [SymbolName, string])[] = [
  ['bird-bridgeable', 'Pole where an eagle can bridge parts'],
  ['bird-unknown', 'Pole not settled by what is recorded'],
  ['bird-sufficient', 'Pole that reaches guidance'],
  ['item-planned', 'Beside a pole: item planned'],
  ['item-on', 'Item on the pole'],
  ['item-failed', 'Item failed'],
  ['item-removed', 'Item taken off the pole'],
  ['nest-in-use', 'Nest in use'],
  ['nest-not-in-use', 'Nest not in use, or use unknown'],
  ['incident-electrocution', 'Bird electrocuted, confirmed or probable'],
  ['incident-other', 'Bird found, another or unknown cause'],
]

/** Rows of the legend for the marks of this desk. */
export function MapKey() {
  return (
    <details className="map-key">
      <summary>Birds</summary>
      <ul>
        {ENTRIES.map(([name, words]) => (
          <li key={name}>
            <KeySymbol name={name} /> {words}
          </li>
        ))}
        <li>Full ring: nest buffer in season in the chosen month</li>
        <li>Dashed ring: nest buffer out of season</li>
        <li>Tint with a dotted edge: habitat</li>
      </ul>
    </details>
  )
}

function KeySymbol({ name }: { readonly name: SymbolName }) {
  const { path, isFilled } = SYMBOL_PATHS[name]
  return (
    <svg
      className={`key-symbol key-${name}`}
      viewBox="0 0 24 24"
      width="18"
      height="18"
      aria-hidden="true"
    >
      <path
        d={path}
        fill={isFilled ? 'currentcolor' : 'none'}
        stroke="currentcolor"
        strokeWidth="2"
      />
    </svg>
  )
}
