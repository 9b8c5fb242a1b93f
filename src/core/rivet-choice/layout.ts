/** What the rules of layout say of a joint whose rivets are swapped: edge, pitch, diameter, countersink and grip again. */
import { checkRivet, type Finding, type Rivet } from '../fastener';
import type { Seat } from './kind';

/** What is not known of the joint is taken to be right, so that no finding is about something that nobody typed. */
export function layoutFindings(
  rivet: Rivet,
  joint: Seat & { readonly pitch?: number },
  closerPitch?: number,
): Finding[] {
  const { nominal } = rivet;
  const { edge = 3 * nominal, thickestSheet = nominal / 3, rows = 1, head, outerSheet, grip } = joint;
  const pitch = closerPitch ?? joint.pitch ?? 6 * nominal;
  const findings = checkRivet({ rivet, grip, thickestSheet, pitch, edge, rows, head, outerSheet });
  if (joint.style === 'flush' && rivet.style !== 'flush' && head !== undefined)
    findings.push({ what: `the sheet is ${head} for a flush head, and this head is not flush`, source: 'geometry' });
  return findings;
}

/** True where nothing is wrong. */
export const passes = (findings: readonly Finding[]): boolean => findings.length === 0;
