/** A judged loading case in words, for a list, a picture's label and a report. */
import { INCH_POUND, judgementWords, type CaseResult, type Wording } from '../core/balance';

export interface CaseWords {
  /** "inside from take-off to landing", or what is out first. */
  readonly verdict: string;
  readonly takeoff: string;
  readonly landing: string;
  /** Stations over their most or under their least. */
  readonly stations: readonly string[];
}

export function caseWords(result: CaseResult, say: Wording = INCH_POUND): CaseWords {
  const stations = result.stationFindings.map(({ station, loaded, by }) => {
    const range = by > 0 ? `over its most, ${say.weight(station.max)}` : `under its least, ${say.weight(station.min)}`;
    return `${station.name}: ${say.weight(loaded)} is ${say.weight(Math.abs(by))} ${range}`;
  });
  return {
    verdict: verdictOf(result, stations, say),
    takeoff: judgementWords(result.takeoff.judgement, say),
    landing: judgementWords(result.landing.judgement, say),
    stations,
  };
}

function verdictOf({ takeoff, landing, firstOutside }: CaseResult, stations: readonly string[], say: Wording): string {
  if (!takeoff.judgement.inside) return `at take-off ${judgementWords(takeoff.judgement, say)}`;
  if (firstOutside && firstOutside.burnt > 0) {
    const after = `leaves the envelope after ${say.weight(firstOutside.burnt)} of fuel`;
    return landing.judgement.inside
      ? `${after} and is back inside at landing`
      : `${after}; at landing ${judgementWords(landing.judgement, say)}`;
  }
  if (stations.length > 0) return `inside, but ${stations.join('; ')}`;
  return 'inside from take-off to landing';
}
