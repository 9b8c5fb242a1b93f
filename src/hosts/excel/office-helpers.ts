/**
 * All that we use of @microsoft/office-js-helpers, in one place: which host this is, what it keeps for a
 * person, and faults in the console. (Its sign-in has no use here, and its notification cannot be reached by
 * a screen reader, so that the pane's own words are shown instead.)
 */
import * as OfficeHelpers from '@microsoft/office-js-helpers';
import type { Settings } from '../../pane';

const { HostType, PlatformType, Storage, StorageType, Utilities } = OfficeHelpers;

/** True where the page stands in Excel; only after Office.onReady. */
export const isInExcel = (): boolean => Utilities.host === HostType.EXCEL;

/** The platform in words, for the report of a fault. */
export function platformName(): string {
  const names: Readonly<Record<string, string>> = {
    [PlatformType.PC]: 'Windows',
    [PlatformType.MAC]: 'Mac',
    [PlatformType.IOS]: 'iPad',
    [PlatformType.OFFICE_ONLINE]: 'the web',
  };
  return names[Utilities.platform] ?? 'an unknown platform';
}

/** False where a pane can neither save a file nor print: on the Mac the page is asked in vain, and nothing says so. */
export const savesFiles = (): boolean =>
  Utilities.platform !== PlatformType.MAC && Utilities.platform !== PlatformType.IOS;

/** Writes a fault into the console, with its causes. */
export const logFault = (fault: unknown): void => Utilities.log(fault instanceof Error ? fault : String(fault));

/** The helpers read a stored text that looks like a moment in time as a date; behind this sign it is a text. */
const TEXT = '=';

/**
 * A person's settings, kept by the browser under the part that Excel on the web sets aside for each site;
 * where that is refused they last as long as the pane.
 */
export function excelSettings(partition: string | undefined): Settings {
  const container = `tarebook.pane${partition ? `.${partition.replace(/[^\w-]/g, '')}` : ''}`;
  const storage = open(container);
  return {
    get(key) {
      const kept: unknown = storage.get(key);
      return typeof kept === 'string' && kept.startsWith(TEXT) ? kept.slice(TEXT.length) : undefined;
    },
    set: (key, value) => void storage.set(key, TEXT + value),
  };
}

function open(container: string): OfficeHelpers.Storage<string> {
  try {
    return new Storage<string>(container, StorageType.LocalStorage);
  } catch {
    return new Storage<string>(container, StorageType.InMemoryStorage);
  }
}
