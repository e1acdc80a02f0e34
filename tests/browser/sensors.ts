import type { CDPSession, Page } from '@playwright/test';

interface Axes {
  x: number;
  y: number;
  z: number;
}

/** Sensors without which Chromium leaves fields of its motion events empty. */
const KINDS = ['accelerometer', 'linear-acceleration', 'gyroscope', 'gravity'] as const;

/**
 * Gives the page a phone's motion sensor. Call it before the page is opened: listeners of an earlier page get
 * nothing. Chromium rounds what the page sees to 0.1 m/s².
 */
export async function motionSensor(page: Page) {
  await page
    .context()
    .grantPermissions(['accelerometer', 'gyroscope', 'magnetometer', 'geolocation']);
  const browser: CDPSession = await page.context().newCDPSession(page);
  for (const type of KINDS) {
    const metadata = { available: true, minimumFrequency: 1, maximumFrequency: 60 };
    await browser.send('Emulation.setSensorOverrideEnabled', { enabled: true, type, metadata });
  }
  const set = (type: (typeof KINDS)[number], xyz: Axes) =>
    browser.send('Emulation.setSensorOverrideReadings', { type, reading: { xyz } });

  return {
    /** The phone lies still; this is what it feels of gravity, in m/s². */
    async lies(gravity: Axes) {
      await set('accelerometer', gravity);
      await set('gravity', gravity);
      await set('linear-acceleration', { x: 0, y: 0, z: 0 });
      await set('gyroscope', { x: 0, y: 0, z: 0 });
    },
  };
}

/** Gravity felt by a phone on its back whose upper edge points uphill on a slope of `degrees`. */
export function onSlope(degrees: number): Axes {
  const slope = (degrees * Math.PI) / 180;
  return { x: 0, y: 9.81 * Math.sin(slope), z: 9.81 * Math.cos(slope) };
}
