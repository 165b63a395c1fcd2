import type { BasinAnswer, WaterBand } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { Sign } from '../parts/Sign.tsx';
import { asSentence, litres, plain } from '../words/figures.ts';
import { standingOf, stripOf, STANDING_WORDS } from './bandStrip.ts';

/** The water of the basin, each property on a strip that shows its band. */
export function BasinWater({ basin }: { readonly basin: BasinAnswer }) {
  const { water } = basin.outlook;
  return (
    <Section title="Water" aside={water ? undefined : 'not known'}>
      {water === undefined && <p>Nothing is drawn where nothing is known: {basin.outlook.waterUnknown ?? 'no reason was given'}.</p>}
      {water && <p>{litres(water.volumeL)} in the basin{water.transpirationLPerDay === undefined ? '' : `; the plants take about ${litres(water.transpirationLPerDay)} a day`}.</p>}
      {basin.bands.length === 0 && <p>No crop grows here, so no bands apply.</p>}
      <table className="bands">
        <thead><tr><th scope="col">Property</th><th scope="col" className="number">now</th><th scope="col">against its band</th><th scope="col"><span className="only-read">standing</span></th></tr></thead>
        <tbody>{basin.bands.map((band) => <BandRow key={band.symbol} band={band} />)}</tbody>
      </table>
      {water && <p className="soft small">How it is known: {asSentence(water.basis)}</p>}
      <p className="soft small">The box is the band of the crop card, the short line in it the target, the diamond the water now. Traces in µmol/L.</p>
    </Section>
  );
}

function BandRow({ band }: { readonly band: WaterBand }) {
  const standing = standingOf(band);
  return (
    <tr>
      <th scope="row"><b>{band.symbol}</b> <span className="band-name">{band.name}</span></th>
      <td className="number">{band.value === undefined ? '–' : plain(band.value)}<span className="soft small"> {band.unit}</span></td>
      <td className="strip-cell"><BandStrip band={band} /></td>
      <td className="standing" title={band.absentBecause}>{standing === 'within' ? <span className="soft">within</span> : <><Sign shape={standing === 'not known' ? 'ring' : 'diamond'} /> <b>{STANDING_WORDS[standing]}</b></>}</td>
    </tr>
  );
}

function BandStrip({ band }: { readonly band: WaterBand }) {
  const { low, high, target, value } = stripOf(band);
  return (
    <>
      <svg className="strip" viewBox="0 0 200 22" preserveAspectRatio="none" aria-hidden="true">
        <line x1="0" x2="200" y1="11" y2="11" className="rail" />
        <rect x={low} y="4" width={Math.max(1, high - low)} height="14" className="band" />
        {target !== undefined && <line x1={target} x2={target} y1="4" y2="18" className="target" />}
        {value !== undefined && <path d={`M${value} 2l6 9-6 9-6-9z`} className="value" />}
      </svg>
      <span className="soft small figures">{plain(band.low)} – {plain(band.high)}</span>
    </>
  );
}
