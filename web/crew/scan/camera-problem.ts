const INSTEAD = 'Type the id into the search box, or choose a photo of the label.'

/** Why no picture comes from the camera, in plain words; names of the W3C Media Capture specification. */
export function cameraProblem(name: string): string {
  switch (name) {
    case 'NotAllowedError':
    case 'SecurityError':
      return `The browser does not let this page use the camera. Allow it in the browser’s site settings. ${INSTEAD}`
    case 'NotFoundError':
    case 'OverconstrainedError':
      return `This device has no camera that the browser can use. ${INSTEAD}`
    case 'NotReadableError':
    case 'AbortError':
      return `The camera does not answer: another program may be using it. ${INSTEAD}`
    default:
      return `No picture comes from the camera. ${INSTEAD}`
  }
}

export const NO_CAMERA_HERE = `This browser gives pages no camera here; it needs an https address. ${INSTEAD}`
