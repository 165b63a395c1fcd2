import { Link } from '@tanstack/react-router';
import type { ScannedBasin } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { Status } from '../parts/Sign.tsx';
import { count, fixed, plain } from '../words/figures.ts';
import { dateTime } from '../words/times.ts';
import { signed } from './colourings.ts';
import { NEWEST_SCAN } from './scanSearch.ts';

/** The latest scan of every basin in a row each; those with most to look at first. */
export function ScannedBasins({ basins, zone }: { readonly basins: readonly ScannedBasin[]; readonly zone: string }) {
  const sorted = [...basins].sort((a, b) => b.latest.toLookAt - a.latest.toLookAt || a.basin.localeCompare(b.basin));
  if (basins.length === 0) return <Section title="Latest scans"><p>No basin was scanned yet.</p></Section>;
  return (
    <Section title="Latest scans" aside="most to look at first">
      <div className="wide-table" tabIndex={0} role="group" aria-label="Latest scans, scrolls sideways where it is wider than the screen">
        <table className="scanned">
          <thead><tr><th scope="col">Basin</th><th scope="col">Scanned</th><th scope="col">Crop</th><th scope="col" className="number">Plants</th><th scope="col" className="number">A plant, g</th><th scope="col" className="number">Height, mm</th><th scope="col" className="number">Against forecast</th><th scope="col">To look at</th></tr></thead>
          <tbody>
            {sorted.map(({ basin, cropTitle, stageTitle, latest, scans }) => (
              <tr key={basin}>
                <th scope="row"><Link to="/imaging/$basin" params={{ basin }} search={NEWEST_SCAN} className="basin-link" aria-label={`Scan of basin ${basin}`}>{basin}</Link></th>
                <td className="figures">{dateTime(latest.takenAt, zone)}<br /><span className="soft small">{count(scans, 'scan')} of the lot</span></td>
                <td>{cropTitle}<br /><span className="soft small">{stageTitle.toLowerCase()}, {latest.ageDays} days</span></td>
                <td className="number">{latest.present} of {latest.positions}</td>
                <td className="number">{latest.meanFreshG === undefined ? 'not told' : plain(latest.meanFreshG)}{latest.meanLowG !== undefined && latest.meanHighG !== undefined && <><br /><span className="soft small">{plain(latest.meanLowG)} to {plain(latest.meanHighG)}</span></>}</td>
                <td className="number">{fixed(latest.meanHeightMm, 0)}</td>
                <td className="number">{latest.gapToForecast === undefined ? 'not told' : signed(latest.gapToForecast)}</td>
                <td>{latest.toLookAt === 0 ? <span className="soft">none</span> : <Status shape="diamond">{latest.toLookAt}</Status>}{latest.scored > 0 && <><br /><span className="soft small">{latest.scored} scored</span></>}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </Section>
  );
}
