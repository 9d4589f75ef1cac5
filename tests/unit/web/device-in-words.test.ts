import { expect, it } from 'vitest'
import { deviceInWords } from '../../../web/account/device-in-words.ts'

// User agents as browsers send them; common practice, no source.
it.each([
  [
    'Mozilla/5.0 (Windows NT 10.0; Win64; x64; rv:140.0) Gecko/20100101 Firefox/140.0',
    'Firefox on Windows',
  ],
  [
    'Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0.0.0 Safari/537.36 Edg/140.0.0.0',
    'Edge on Windows',
  ],
  [
    'Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.0 Mobile/15E148 Safari/604.1',
    'Safari on an iPhone',
  ],
  [
    'Mozilla/5.0 (Linux; Android 15) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0.0.0 Mobile Safari/537.36',
    'Chrome or Chromium on Android',
  ],
  ['curl/8.5.0', 'A program that is no browser'],
  [null, 'A device that did not say what it is'],
])('calls %s by a name that its owner knows', (userAgent, words) => {
  expect(deviceInWords(userAgent)).toBe(words)
})
