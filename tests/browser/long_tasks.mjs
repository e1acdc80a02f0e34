// Tasks that hold the page up for more than 50 ms (W3C, Long Tasks API), and where on the way through the app they fall.

/** Runs in the page before anything else. */
export const watchTasks = () => {
  window.longTasks = [];
  new PerformanceObserver((list) => window.longTasks.push(...list.getEntries().map(({ duration }) => Math.round(duration)))).observe({ type: 'longtask', buffered: true });
};

/** Those since the last look. */
async function taken(page) {
  // Told of a little after they are over.
  await page.waitForTimeout(150);
  return page.evaluate(() => window.longTasks.splice(0));
}

/** A step of the journey with its tasks over 50 ms. */
async function step(page, name, walk) {
  await walk();
  await page.waitForTimeout(400);
  const long = await taken(page);
  console.log(`  ${name.padEnd(34)} ${long.length ? long.join(', ') : 'none'}`);
  return long;
}

/** From the demo's map, once the whole engine is there: an item measured, the mast dragged, the checks, the menu and a sheet to
 * print. Prints the long tasks of each step. */
export async function journey(page, drag) {
  console.log('tasks over 50 ms on the way from there, ms:');
  const tab = (name) => page.getByTestId(`tab-${name}`).click();
  await step(page, 'Measure', async () => {
    await tab('measure');
    await page.getByRole('link', { name: 'Slope of the ground' }).waitFor();
  });
  await step(page, 'a slope is begun', async () => {
    await page.getByRole('link', { name: 'Slope of the ground' }).click();
    await page.getByTestId('add-item').click();
    await page.getByRole('textbox').first().pressSequentially('45');
    await page.getByTestId('next-question').click();
    await page.getByRole('textbox', { name: 'Slope', exact: true }).waitFor();
  });
  await step(page, 'it is typed and kept', async () => {
    await page.getByRole('textbox', { name: 'Slope', exact: true }).pressSequentially('5.5');
    await page.getByTestId('keep-item').click();
  });
  await step(page, 'the map', async () => {
    await tab('map');
    await page.getByTestId('mast-handle').waitFor();
  });
  await step(page, 'the mast is dragged', () => drag(page));
  await step(page, 'the checks', async () => {
    await tab('checks');
    await page.getByTestId('verdict').waitFor();
  });
  await step(page, 'the menu', async () => {
    await page.getByTestId('job-menu').click();
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click();
  });
  await step(page, 'Build, and its sheets drawn', async () => {
    await tab('build');
    await page.evaluate(() => (window.print = () => undefined));
    await page.getByTestId('print-map').click();
    await page.frameLocator('#print-frame').locator('section > svg').first().waitFor({ state: 'attached', timeout: 60_000 });
  });
}
