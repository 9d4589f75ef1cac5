import { currentWorkChoices } from './work-choices.ts'

export type Signal = 'passed' | 'stopped'

/** One short buzz and a high tone; three long ones and a low tone. Milliseconds and hertz. */
const SIGNALS: Readonly<
  Record<Signal, { readonly buzzMs: number[]; readonly toneHz: number; readonly toneMs: number }>
> = {
  passed: { buzzMs: [60], toneHz: 880, toneMs: 120 },
  stopped: { buzzMs: [200, 100, 200, 100, 200], toneHz: 220, toneMs: 500 },
}

/** Buzzes and beeps, where the crew wants that and the device can. Never the only sign. */
export function signal(what: Signal): void {
  if (!currentWorkChoices().hasSignals) return
  const { buzzMs, toneHz, toneMs } = SIGNALS[what]
  if ('vibrate' in navigator) navigator.vibrate(buzzMs)
  beep(toneHz, toneMs)
}

function beep(toneHz: number, toneMs: number): void {
  if (!('AudioContext' in window)) return
  const audio = new AudioContext()
  const tone = audio.createOscillator()
  const loudness = audio.createGain()
  loudness.gain.value = 0.3
  tone.frequency.value = toneHz
  tone.connect(loudness).connect(audio.destination)
  tone.onended = () => void audio.close()
  tone.start()
  tone.stop(audio.currentTime + toneMs / 1000)
}
