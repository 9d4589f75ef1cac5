import { useEffect, useRef, useState } from 'react'
import { Button } from '../../ui/button.tsx'
import { LoadingNote } from '../../ui/state-note.tsx'
import { cameraProblem, NO_CAMERA_HERE } from './camera-problem.ts'
import { readFrame } from './read-label-image.ts'

interface Props {
  /** A code was read; the camera is let go. */
  readonly onText: (text: string) => void
  readonly onStop: () => void
}

/** The picture of the camera at the back, looked at a few times a second until a code is read. */
export function CameraView({ onText, onStop }: Props) {
  const video = useRef<HTMLVideoElement>(null)
  const [state, setState] = useState<'asking' | 'looking' | { readonly problem: string }>('asking')
  const onRead = useRef(onText)
  onRead.current = onText
  useEffect(() => {
    const shown = video.current
    if (!shown) return
    return lookThroughCamera(shown, {
      onLooking: () => setState('looking'),
      onProblem: (problem) => setState({ problem }),
      onText: (text) => onRead.current(text),
    })
  }, [])
  const problem = typeof state === 'object' ? state.problem : null
  return (
    <div className="stack">
      {state === 'asking' && <LoadingNote what="Asking for the camera…" />}
      {problem !== null && (
        <p className="state-note" role="status">
          {problem}
        </p>
      )}
      <video
        ref={video}
        className="scan-video"
        hidden={state !== 'looking'}
        aria-label="Picture of the camera"
        muted
        playsInline
      />
      {state === 'looking' && (
        <p role="status">Hold the code into the picture, a hand’s width away.</p>
      )}
      <Button onClick={onStop}>{problem === null ? 'Stop the camera' : 'Close'}</Button>
    </div>
  )
}

interface Listeners {
  readonly onLooking: () => void
  readonly onProblem: (words: string) => void
  readonly onText: (text: string) => void
}

const LOOK_EVERY_MS = 250

/** @returns lets go of the camera */
function lookThroughCamera(video: HTMLVideoElement, listeners: Listeners): () => void {
  let stream: MediaStream | null = null
  let timer: number | null = null
  let isStopped = false
  const stop = () => {
    isStopped = true
    if (timer !== null) window.clearTimeout(timer)
    for (const track of stream?.getTracks() ?? []) track.stop()
  }
  const look = async () => {
    const text = await readFrame(video)
    if (isStopped) return
    if (text === null) {
      timer = window.setTimeout(() => void look(), LOOK_EVERY_MS)
      return
    }
    stop()
    listeners.onText(text)
  }
  const start = async () => {
    if (!navigator.mediaDevices?.getUserMedia) {
      listeners.onProblem(NO_CAMERA_HERE)
      return
    }
    try {
      stream = await navigator.mediaDevices.getUserMedia({
        video: { facingMode: { ideal: 'environment' }, width: { ideal: 1280 } },
      })
      if (isStopped) {
        stop()
        return
      }
      video.srcObject = stream
      await video.play()
      listeners.onLooking()
      await look()
    } catch (error) {
      if (!isStopped) listeners.onProblem(cameraProblem(error instanceof Error ? error.name : ''))
    }
  }
  void start()
  return stop
}
