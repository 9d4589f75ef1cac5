import { readFile } from 'node:fs/promises'
import sharp from 'sharp'
import { expect, it } from 'vitest'

const WEB = new URL('../../../web/', import.meta.url)

interface Manifest {
  readonly start_url: string
  readonly icons: readonly {
    readonly src: string
    readonly sizes: string
    readonly purpose: string
  }[]
}

it('the manifest names icons that are there, in the sizes that it says', async () => {
  const text = await readFile(new URL('public/manifest.webmanifest', WEB), 'utf8')
  const { icons, start_url } = JSON.parse(text) as Manifest
  expect(start_url).toBe('/')
  for (const { src, sizes } of icons) {
    const { width, height, format } = await sharp(
      await readFile(new URL(`public${src}`, WEB)),
    ).metadata()
    expect([`${width}x${height}`, format]).toEqual([sizes, 'png'])
  }
  expect(icons.map(({ purpose }) => purpose)).toEqual(['any', 'any', 'maskable'])
})

it('the maskable icon keeps its drawing inside the circle that every mask leaves', async () => {
  const file = await readFile(new URL('public/icon-maskable.png', WEB))
  const { data, info } = await sharp(file).removeAlpha().raw().toBuffer({ resolveWithObject: true })
  const paper = [...data.subarray(0, 3)]
  // W3C Web Application Manifest, safe zone of maskable icons: a circle of 40 % of the width.
  const safe = 0.4 * info.width
  const outside: number[] = []
  for (let at = 0; at < info.width * info.height; at += 1) {
    const x = (at % info.width) + 0.5 - info.width / 2
    const y = Math.floor(at / info.width) + 0.5 - info.height / 2
    const pixel = [...data.subarray(at * 3, at * 3 + 3)]
    const isDrawn = pixel.some((value, index) => Math.abs(value - (paper[index] ?? 0)) > 24)
    if (isDrawn && Math.hypot(x, y) > safe) outside.push(at)
  }
  expect(outside).toEqual([])
})
