import type { Page } from '@playwright/test';

/** A made-up phone: what its sensors say, as the page hears it. Not rounded by the browser, so `step` is its own. */
export interface Phone {
  rate_hz: number;
  /** Standard deviation of one axis, m/s². */
  noise: number;
  /** Rounding step of an axis, m/s²; 0 for none. */
  step: number;
  /** Slow turn of the long edge, degrees a second. */
  drift_deg_per_s?: number;
  /** Swing of the long edge to either side at 5 Hz, degrees. */
  shake_deg?: number;
  /** Which axes it reports. */
  axes?: ('x' | 'y' | 'z')[];
  /** iPhones report gravity downwards. */
  down?: boolean;
  /** Sends orientation events as well. */
  orientation?: boolean;
}

/** Slopes of its edges, with the screen up or, upright, facing the reader. */
export interface Pose {
  long_deg?: number;
  short_deg?: number;
  /** Upright along a tube: how far the screen looks down, and the right side hangs. */
  upright?: { screen_down_deg: number; right_down_deg: number };
}

export const STEADY: Phone = { rate_hz: 60, noise: 0.03, step: 0.01 };

/** Lets a phone lie or stand so until `rest` is called again; noise is seeded, the same on every run. */
export async function feed(page: Page, phone: Phone, pose: Pose): Promise<void> {
  await page.evaluate(startFeed, { phone, pose });
}

export async function stopFeed(page: Page): Promise<void> {
  await page.evaluate(() => clearInterval((window as unknown as { feed?: number }).feed));
}

/** Runs in the page. */
function startFeed({ phone, pose }: { phone: Phone; pose: Pose }): void {
  const scope = window as unknown as { feed?: number };
  clearInterval(scope.feed);
  const rad = Math.PI / 180;
  let seed = 12345;
  const uniform = () => {
    // mulberry32, a public-domain generator.
    seed = (seed + 0x6d2b79f5) | 0;
    let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = () =>
    Math.sqrt(-2 * Math.log(uniform() + 1e-12)) * Math.cos(2 * Math.PI * uniform());
  const up = (long: number): [number, number, number] => {
    if (pose.upright) {
      const x = -Math.sin(pose.upright.right_down_deg * rad);
      const z = -Math.sin(pose.upright.screen_down_deg * rad);
      return [x, Math.sqrt(1 - x * x - z * z), z];
    }
    const [x, y] = [Math.sin((pose.short_deg ?? 0) * rad), Math.sin(long * rad)];
    return [x, y, Math.sqrt(1 - x * x - y * y)];
  };
  const begun = performance.now();
  const axes = phone.axes ?? ['x', 'y', 'z'];
  scope.feed = window.setInterval(() => {
    const seconds = (performance.now() - begun) / 1000;
    const swing = (phone.shake_deg ?? 0) * Math.sin(2 * Math.PI * 5 * seconds);
    const long = (pose.long_deg ?? 0) + (phone.drift_deg_per_s ?? 0) * seconds + swing;
    const direction = up(long);
    const [x, y, z] = direction.map((part) => {
      const felt = (phone.down ? -9.81 : 9.81) * part + phone.noise * normal();
      return phone.step > 0 ? Math.round(felt / phone.step) * phone.step : felt;
    });
    const accelerationIncludingGravity: DeviceMotionEventAccelerationInit = {
      ...(axes.includes('x') && { x }),
      ...(axes.includes('y') && { y }),
      ...(axes.includes('z') && { z }),
    };
    dispatchEvent(
      new DeviceMotionEvent('devicemotion', { accelerationIncludingGravity, interval: 1000 / phone.rate_hz }),
    );
    if (phone.orientation) {
      const beta = Math.asin(direction[1]) / rad;
      const gamma = Math.atan2(-direction[0], direction[2]) / rad;
      dispatchEvent(new DeviceOrientationEvent('deviceorientation', { alpha: 0, beta, gamma }));
    }
  }, 1000 / phone.rate_hz);
}

/** A compass that says this heading, give or take; at 30 Hz until it is called again. */
export async function feedCompass(page: Page, heading_deg: number, noise_deg = 0.5): Promise<void> {
  await page.evaluate(
    ([heading, noise]) => {
      const scope = window as unknown as { compass?: number };
      clearInterval(scope.compass);
      let turn = 0;
      scope.compass = window.setInterval(() => {
        turn += 2.4; // the golden angle in radians: spread evenly, never the same
        const alpha = (720 - heading - noise * Math.sin(turn)) % 360;
        dispatchEvent(
          new DeviceOrientationEvent('deviceorientationabsolute', {
            absolute: true,
            alpha,
            beta: 4,
            gamma: -3,
          }),
        );
      }, 33);
    },
    [heading_deg, noise_deg] as const,
  );
}
