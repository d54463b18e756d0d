/** What every answer tells the browser not to do: nothing from elsewhere, no script in a page, nothing in a frame. */
import { NONCE, secureHeaders } from 'hono/secure-headers'

export const safeHeaders = secureHeaders({
  contentSecurityPolicy: {
    defaultSrc: ["'none'"],
    scriptSrc: ["'self'"],
    // The text editor makes style sheets as it goes, with the nonce that its page carries.
    styleSrc: ["'self'", NONCE],
    imgSrc: ["'self'", 'data:', 'blob:'],
    fontSrc: ["'self'"],
    connectSrc: ["'self'"],
    workerSrc: ["'self'"],
    formAction: ["'none'"],
    baseUri: ["'none'"],
    frameAncestors: ["'none'"],
  },
  xFrameOptions: 'DENY',
  // The server speaks HTTP; a promise of HTTPS would lock its name for other programs.
  strictTransportSecurity: false,
})
