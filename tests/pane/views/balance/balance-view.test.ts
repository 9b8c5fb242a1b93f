import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import type { Cell, WorkbookModel } from '../../../../src/sheet';
import { layoutFaultsAt } from '../../../helpers/layout';
import { axeInEveryTheme, chromiumPath, type OpenOptions, panePages } from '../../pane-page';
import { metricAirplanes } from './metric-airplanes';
import { airplanes, book, nothing, partsSheet, surfacesSheet } from './models';

const AILERON_ROW: readonly Cell[] = ['Aileron', 'Aileron', 90, 1.2, 1, 10, 4];
const rowOf = (sheet: string, first: string): number =>
  airplanes()
    .sheets.find(({ name }) => name === sheet)!
    .cells.findIndex((row) => row?.[0]?.value === first);
const LOADING = 'Loading tailwheel';

/** The sample with a least above the most, a reading that is a word, and a corner without weight. */
function faulty(): WorkbookModel {
  const model = airplanes();
  const put = (sheet: string, row: number, column: number, value: Cell): void => {
    model.sheets.find(({ name }) => name === sheet)!.cells[row]![column] = { value };
  };
  put(LOADING, rowOf(LOADING, 'Baggage'), 1, 'behind the seats');
  put(LOADING, rowOf(LOADING, 'Passenger'), 2, 300);
  put('Weighing tailwheel', rowOf('Weighing tailwheel', 'Right main wheel'), 2, -4);
  put('Cases tailwheel', rowOf('Cases tailwheel', 'Two, half tanks'), 2, 'somebody');
  return model;
}

describe.skipIf(!chromiumPath)('the view Balance in Chromium', () => {
  const pages = panePages();
  let page: Page;

  const open = async (
    section: string,
    model: WorkbookModel = airplanes(),
    options: OpenOptions = {},
  ): Promise<void> => {
    page = await pages.open(model, options);
    await page.getByRole('tab', { name: 'Balance' }).click();
    await page.getByRole('tab', { name: section }).click();
  };
  const read = (sheet: string, row: number, column: number): Promise<Cell> =>
    page.evaluate(
      async ([name, r, c]) =>
        (
          await window.handles.workbook.read({
            sheet: name,
            row: r,
            column: c,
            rows: 1,
            columns: 1,
          })
        )[0]![0]!,
      [sheet, row, column] as const,
    );
  const eventually = async (what: () => Promise<unknown>, expected: unknown): Promise<void> =>
    expect.poll(what).toEqual(expected);
  const verdict = (): Promise<string> => page.getByRole('status', { name: 'Verdict' }).innerText();

  describe('a loading', () => {
    it('is judged while the edit is still on its way to the sheet, and says by how much it is out', async () => {
      await open('Loading');
      const load = page.getByRole('textbox', { name: 'Load of Baggage, lb' });
      await page.evaluate(() => {
        window.handles.holding = new Promise((resolve) => addEventListener('let go', () => resolve(), { once: true }));
      });
      await page.getByRole('textbox', { name: 'Load of Passenger, lb' }).fill('210');
      await page.keyboard.press('Enter');
      await load.fill('200');
      await load.press('Enter');
      const words = await verdict();
      expect(words).toContain('Outside');
      expect(words).toMatch(/Take-off: outside: [\d.]+ lb over the highest weight, 1,320.0 lb/);
      expect(words).toContain('Baggage: 200.0 lb is 120.0 lb over its most, 80.0 lb');
      expect(await read(LOADING, rowOf(LOADING, 'Baggage'), 2)).toBe(20);
      await page.evaluate(() => dispatchEvent(new Event('let go')));
      await eventually(() => read(LOADING, rowOf(LOADING, 'Baggage'), 2), 200);
      await page.getByRole('button', { name: 'Undo' }).click();
      await eventually(() => read(LOADING, rowOf(LOADING, 'Baggage'), 2), 20);
    });

    it('follows the sheet', async () => {
      await open('Loading');
      await page.evaluate(([sheet, row]) => window.handles.type(sheet as string, row, 2, 95), [
        LOADING,
        rowOf(LOADING, 'Passenger'),
      ] as const);
      await eventually(() => page.getByRole('textbox', { name: 'Load of Passenger, lb' }).inputValue(), '95');
      await page.getByRole('cell', { name: '1,173.8' }).waitFor();
    });

    it('is told what ballast brings it inside, and where', async () => {
      await open('Loading');
      for (const [station, pounds] of [
        ['Pilot', '110'],
        ['Baggage', '180'],
      ] as const) {
        await page.getByRole('textbox', { name: `Load of ${station}, lb` }).fill(pounds);
        await page.keyboard.press('Enter');
      }
      await page.getByRole('combobox', { name: 'Ballast at' }).selectOption({ label: 'another arm' });
      await page.getByRole('textbox', { name: 'Arm, in' }).fill('10');
      expect(await page.getByRole('status', { name: 'Ballast needed' }).innerText()).toMatch(
        /^\d+\.\d lb at 10\.00 in is the least\. With it: take-off inside.*landing inside/,
      );
    });

    it('is saved as a case and put back from it', async () => {
      await open('Loading');
      await page.getByRole('button', { name: 'Tanks full' }).click();
      await page.getByRole('textbox', { name: /Save the loads now/ }).fill('Full tanks, bag');
      await page.keyboard.press('Enter');
      await page.getByText('Saved the case Full tanks, bag.').waitFor();
      await page.getByRole('tab', { name: 'Cases' }).click();
      await page.getByRole('heading', { name: '7 saved cases, 2 outside' }).waitFor();
      await page.getByRole('button', { name: 'Load it: the case Two, half tanks' }).click();
      await eventually(() => read(LOADING, rowOf(LOADING, 'Passenger'), 2), 145);
      await page.getByRole('button', { name: 'Remove the case Full tanks, bag' }).click();
      await page.getByRole('heading', { name: '6 saved cases, 2 outside' }).waitFor();
    });

    it('shows the caution once, with the document that the limits are from', async () => {
      for (const section of ['Loading', 'Cases']) {
        await open(section);
        await page.getByText('Designer’s sheet 12').first().waitFor();
        expect(await page.getByText('Limits come from the aircraft’s own documents').count()).toBe(1);
        await page.close();
      }
    });
  });

  it('finds the worst that the ranges allow, and puts it onto the sheet', async () => {
    await open('Cases');
    await page.getByRole('heading', { name: 'Worst that the ranges allow: some outside' }).waitFor();
    await page.getByRole('button', { name: 'Load it: most aft' }).click();
    await eventually(() => read(LOADING, rowOf(LOADING, 'Baggage'), 2), 80);
  });

  it('selects the row of a case whose mark is picked', async () => {
    await open('Cases');
    await page.getByRole('button', { name: /^Two heavy, full tanks: take-off/ }).focus();
    await page.keyboard.press('Enter');
    await eventually(
      () => page.evaluate(async () => (await window.handles.workbook.selection())?.row),
      rowOf('Cases tailwheel', 'Two heavy, full tanks'),
    );
  });

  it('weighs with the keyboard alone: a reading, a new correction, and back', async () => {
    await open('Weighing');
    await page.getByRole('textbox', { name: 'Tare, lb of Left main wheel' }).focus();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('5');
    await page.keyboard.press('Tab');
    await page.getByRole('heading', { name: 'Empty: 777.8 lb' }).waitFor();
    await page.getByRole('button', { name: 'Add correction' }).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.type('Chocks');
    for (const text of ['-2', '58']) {
      for (
        let presses = 0;
        presses < 4 &&
        !(await page.evaluate(
          () =>
            document.activeElement!.matches('input[inputmode=decimal]') &&
            (document.activeElement as HTMLInputElement).value === '',
        ));
        presses++
      )
        await page.keyboard.press('Tab');
      await page.keyboard.type(text);
    }
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Empty: 775.8 lb' }).waitFor();
    await eventually(
      () => read('Weighing tailwheel', rowOf('Weighing tailwheel', 'Propeller spinner, not fitted yet') + 1, 1),
      -2,
    );
    await page.getByRole('button', { name: 'Remove Chocks' }).press('Enter');
    await page.getByRole('heading', { name: 'Empty: 777.8 lb' }).waitFor();
    await page.keyboard.press('Control+z');
    await page.getByRole('heading', { name: 'Empty: 775.8 lb' }).waitFor();
  });

  it('refuses what is no number, says so at the field, and lets it go by Escape', async () => {
    await open('Weighing');
    const field = page.getByRole('textbox', { name: 'Tare, lb of Tailwheel' });
    await field.fill('12,5');
    await field.press('Enter');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(await page.locator(`[id="${await field.getAttribute('aria-describedby')}"]`).innerText()).toContain(
      'Tare: “12,5”: write the decimals as 12.5',
    );
    await field.press('Escape');
    expect(await field.inputValue()).toBe('15.5');
  });

  it('prints the record and nothing else of the page, and saves it', async () => {
    await open('Weighing');
    await page.evaluate(() => {
      window.print = () => undefined;
    });
    await page.getByRole('button', { name: 'Print record' }).click();
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.record').isVisible()).toBe(true);
    expect(await page.locator('#pane').isVisible()).toBe(false);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    await page.emulateMedia({ media: 'screen' });
    expect(await page.locator('.record').count()).toBe(0);
    await page.getByRole('button', { name: 'Save record' }).click();
    const [file] = await page.evaluate(() => window.handles.saved);
    expect(file!.name).toBe('weighing-2026-09-19.html');
    expect(file!.text).toContain('Corncrake');
  });

  it('balances a control surface that is added, and the sheet’s own formulas say the same', async () => {
    await open('Surfaces', book(partsSheet()));
    await page.getByRole('button', { name: 'Add the sheet' }).click();
    await page.getByText('Added the sheet Control surfaces').waitFor();
    await page.getByRole('textbox', { name: 'Hinge line (in)' }).fill('90');
    await page.keyboard.press('Enter');
    await page.getByText('3 rows, 3.3 lb: 10.0 lb·in, trailing-edge heavy.').waitFor();
    await page.getByText(/The scale says 4\.4 lb·in \(44 %\) less than the parts list/).waitFor();
    await eventually(
      async () => [
        await read('Control surfaces', 5, 8),
        await read('Control surfaces', 5, 9),
        await read('Control surfaces', 5, 10),
      ],
      [expect.closeTo(10, 9), expect.closeTo(5.6, 9), expect.closeTo(1.4, 9)],
    );
  });

  it('gives an empty workbook an airplane by one button, says what it added, and takes it back in one step', async () => {
    await open('Weighing', nothing);
    await page.getByRole('button', { name: 'Add the sheets' }).click();
    await page.getByText('Added the sheets Weighing, Loading, Envelope and Cases').waitFor();
    await page.getByRole('heading', { name: /^Empty: 1,026\.0 lb/ }).waitFor();
    await page.getByRole('button', { name: 'Close' }).click();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('heading', { name: 'No airplane in this workbook yet' }).waitFor();
  });

  it('puts the form of another airplane away when another tab is opened', async () => {
    await open('Loading');
    await page.getByRole('button', { name: 'Add airplane' }).click();
    await page.getByRole('heading', { name: 'Another airplane' }).waitFor();
    await page.getByRole('tab', { name: 'Cases' }).click();
    await page.getByRole('heading', { name: /saved cases/ }).waitFor();
    expect(await page.getByRole('heading', { name: 'Another airplane' }).count()).toBe(0);
  });

  describe('in millimetres and kilograms', () => {
    /** Inch-pound units in what is shown and spoken. */
    const inchPound = async (): Promise<string[]> => {
      const texts = await page.evaluate(() => {
        const pane = document.getElementById('view-balance')!;
        return [
          pane.innerText,
          ...[...pane.querySelectorAll('[aria-label], [title], title')].map(
            (element) => element.getAttribute('aria-label') ?? element.getAttribute('title') ?? element.textContent,
          ),
        ];
      });
      return [
        ...new Set(texts.flatMap((text) => text.match(/\blb\b|\bpound|\binch|\d\s?in\b(?! the)|[,(] ?in\)?$/gm) ?? [])),
      ];
    };

    it.each(['Weighing', 'Loading', 'Cases', 'Envelope'])('shows no pounds and no inches: %s', async (section) => {
      await open(section, metricAirplanes());
      await page
        .getByText(/\d (?:kg|mm)\b/)
        .first()
        .waitFor();
      expect(await inchPound()).toEqual([]);
      for (const name of ['Change stations', 'Add corner']) {
        const button = page.getByRole('button', { name });
        if (await button.isVisible()) await button.click();
      }
      expect(await inchPound()).toEqual([]);
    });

    it('takes a load with its unit, converts pounds, and refuses metres', async () => {
      await open('Loading', metricAirplanes());
      const field = page.getByRole('textbox', { name: 'Load of Passenger, kg' });
      await field.fill('170 lb');
      await field.press('Enter');
      await eventually(() => read(LOADING, rowOf(LOADING, 'Passenger'), 2), expect.closeTo(77.1107029, 6));
      expect(await field.inputValue()).toBe('77.1107029');
      await page.getByRole('cell', { name: '566.4' }).waitFor();
      await field.fill('2 m');
      await field.press('Enter');
      expect(await field.getAttribute('aria-invalid')).toBe('true');
      const note = page.locator(`[id="${await field.getAttribute('aria-describedby')}"]`);
      expect(await note.innerText()).toBe('“2 m”: m is not a unit here. Type lb, oz, kg, g');
      await field.press('Escape');
      expect(await field.inputValue()).toBe('77.1107029');
    });

    it('writes and reads decimal commas in the place’s way', async () => {
      await open('Weighing', metricAirplanes(), { locale: { language: 'en', numbers: 'de-DE' } });
      await page.getByRole('heading', { name: /^Empty: 353,3 kg at 1\.745,1 mm, 16,1 % MAC/ }).waitFor();
      const field = page.getByRole('textbox', { name: 'Tare, kg of Tailwheel' });
      await field.fill('8,5');
      await field.press('Enter');
      await eventually(() => read('Weighing tailwheel', rowOf('Weighing tailwheel', 'Tailwheel'), 2), 8.5);
      expect(await field.inputValue()).toBe('8,5');
      await page.getByRole('button', { name: 'Save record' }).click();
      expect(await page.evaluate(() => window.handles.saved[0]!.text)).toMatch(/<td class="n">8,50<\/td>/);
    });

    it('says what the layers below found in English, and marks it so', async () => {
      const model = faulty();
      await open('Weighing', model, {
        locale: { language: 'de', numbers: 'de-DE', texts: { 'To fix': 'Zu richten' } },
      });
      await page.getByRole('heading', { name: 'Zu richten' }).waitFor();
      expect(await page.locator('tbody [lang=en]').first().innerText()).toContain('got -4; takes pounds');
    });

    it('gives an empty workbook an airplane in the units that are chosen', async () => {
      await open('Weighing', nothing);
      await page.getByRole('combobox', { name: 'Units' }).selectOption({ label: 'Millimetres and kilograms' });
      await page.getByRole('button', { name: 'Add the sheets' }).click();
      await page.getByRole('heading', { name: /^Empty: \d+\.\d kg at/ }).waitFor();
      expect(await inchPound()).toEqual([]);
    });
  });

  describe('as a guest', () => {
    const states: readonly (readonly [string, string, WorkbookModel, () => Promise<unknown>])[] = [
      ['weighing', 'Weighing', airplanes(), async () => undefined],
      ['loading', 'Loading', airplanes(), async () => undefined],
      [
        'stations that are changed',
        'Loading',
        airplanes(),
        () => page.getByRole('button', { name: 'Change stations' }).click(),
      ],
      ['loading with cells to mend', 'Loading', faulty(), async () => undefined],
      ['weighing with cells to mend', 'Weighing', faulty(), async () => undefined],
      ['cases with cells to mend', 'Cases', faulty(), async () => undefined],
      ['cases', 'Cases', airplanes(), async () => undefined],
      ['envelope', 'Envelope', airplanes(), () => page.getByRole('button', { name: 'Add corner' }).click()],
      [
        'surfaces',
        'Surfaces',
        book(partsSheet(), surfacesSheet([AILERON_ROW, ['Rudder', 'Rudder', 12, 1]])),
        () => page.locator('summary').first().click(),
      ],
      ['no surface', 'Surfaces', nothing, async () => undefined],
      ['nothing', 'Loading', nothing, async () => undefined],
      ['another airplane', 'Loading', airplanes(), () => page.getByRole('button', { name: 'Add airplane' }).click()],
    ];

    it.each(states)(
      'has no accessibility finding in light, dark and high contrast, and cuts nothing off: %s',
      async (_name, section, model, reach) => {
        await open(section, model, { width: 320 });
        await reach();
        expect(await axeInEveryTheme(page)).toEqual([]);
        expect(await layoutFaultsAt(page, [320, 350, 430, 600], '#pane')).toEqual([]);
      },
    );
  });
});
