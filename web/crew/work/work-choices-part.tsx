import { AWAKE_WORDS, useKeepAwake } from './keep-awake.ts'
import { signal } from './signals.ts'
import { chooseSignals, useWorkChoices } from './work-choices.ts'

/** What the device does beside showing: keeps the screen on, and buzzes and beeps if wanted. */
export function WorkChoices() {
  const { hasSignals } = useWorkChoices()
  return (
    <div className="stack">
      <label className="work-check">
        <input
          type="checkbox"
          checked={hasSignals}
          onChange={({ target }) => {
            chooseSignals(target.checked)
            signal('passed')
          }}
        />
        Buzz and beep when a step passes or does not
      </label>
      <p>They come on top of what is shown; not every device can.</p>
    </div>
  )
}

/** Keeps the screen on while the steps are open, and says when it does not. */
export function ScreenKeptOn() {
  const awake = useKeepAwake()
  return <p className="small">{AWAKE_WORDS[awake]}</p>
}
