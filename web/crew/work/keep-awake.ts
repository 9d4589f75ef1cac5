import { useEffect, useState } from 'react'

export type Awake = 'kept awake' | 'not kept awake' | 'not possible here'

/**
 * Keeps the screen from going dark as long as the calling screen stands. The system takes that
 * away when another page is shown; it is asked for again on the way back.
 */
export function useKeepAwake(): Awake {
  const canAsk = 'wakeLock' in navigator
  const [awake, setAwake] = useState<Awake>(canAsk ? 'not kept awake' : 'not possible here')
  useEffect(() => {
    if (!canAsk) return
    let lock: WakeLockSentinel | null = null
    let isGone = false
    const ask = async () => {
      if (document.visibilityState !== 'visible') return
      try {
        const given = await navigator.wakeLock.request('screen')
        if (isGone) {
          await given.release()
          return
        }
        lock = given
        lock.onrelease = () => setAwake('not kept awake')
        setAwake('kept awake')
      } catch {
        // A low battery or the person's settings may forbid it.
        setAwake('not kept awake')
      }
    }
    const onShown = () => void ask()
    void ask()
    document.addEventListener('visibilitychange', onShown)
    return () => {
      isGone = true
      document.removeEventListener('visibilitychange', onShown)
      void lock?.release()
    }
  }, [canAsk])
  return awake
}

/** What is said when the screen may go dark; empty while it does not. */
export const AWAKE_WORDS: Readonly<Record<Awake, string>> = {
  'kept awake': 'The screen stays on while these steps stand open.',
  'not kept awake': 'The device does not keep the screen on now; it may go dark between steps.',
  'not possible here': 'This browser cannot keep the screen on; it may go dark between steps.',
}
