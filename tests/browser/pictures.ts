import type { Page } from '@playwright/test';

/** A picture as a camera gives one, larger than is kept. */
export async function picture(page: Page, colour: string): Promise<{ name: string; mimeType: string; buffer: Buffer }> {
  const base64 = await page.evaluate((fill) => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [3200, 2400];
    const pen = canvas.getContext('2d')!;
    pen.fillStyle = fill;
    pen.fillRect(0, 0, 3200, 2400);
    return canvas.toDataURL('image/png').replace(/^[^,]*,/, '');
  }, colour);
  return { name: 'IMG_0001.png', mimeType: 'image/png', buffer: Buffer.from(base64, 'base64') };
}
