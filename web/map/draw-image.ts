/**
 * Paints an image for the map, `sizePx` square in units of the page, at `pixelRatio` times that many
 * pixels. On the processor's side: reading a picture back from the graphics card takes far longer.
 */
export function drawImage(
  sizePx: number,
  pixelRatio: number,
  paint: (context: CanvasRenderingContext2D) => void,
): ImageData {
  const canvas = document.createElement('canvas')
  canvas.width = sizePx * pixelRatio
  canvas.height = sizePx * pixelRatio
  const context = canvas.getContext('2d', { willReadFrequently: true })
  if (!context) throw new Error('Expected a canvas that can be drawn on.')
  context.scale(pixelRatio, pixelRatio)
  paint(context)
  return context.getImageData(0, 0, canvas.width, canvas.height)
}
