import { memo } from 'react';
import type { ScanAnswer, ScannedPlant } from '../../desk/contract.ts';
import { choiceOf } from './scoreChoices.ts';

interface Props { readonly scan: Pick<ScanAnswer, 'rafts' | 'plants'>; readonly pitchMm: number; readonly proposals: boolean }

/** Rafts and what is known of each position, drawn over the picture in mm: a dot a plant, a cross where nothing grows, a diamond where one is to be looked at, a letter where it was scored, in a broken circle where a class is only proposed. */
export const PlantMarks = memo(function PlantMarks({ scan, pitchMm, proposals }: Props) {
  const size = Math.min(46, pitchMm * 0.36);
  return (
    <>
      {scan.rafts.map(({ raft, centreMm: [x, y], sizeMm: [width, depth] }) => (
        <g key={raft} className="raft">
          <rect x={x - width / 2} y={-y - depth / 2} width={width} height={depth} />
          <text x={x - width / 2 + 10} y={-y - depth / 2 + 38} fontSize={34}>{raft}</text>
        </g>
      ))}
      {scan.plants.map((plant) => <PlantMark key={`${plant.raft}-${plant.position}`} plant={plant} size={size} proposals={proposals} />)}
    </>
  );
});

function PlantMark({ plant, size, proposals }: { readonly plant: ScannedPlant; readonly size: number; readonly proposals: boolean }) {
  const { xMm: x, yMm, measures, reasons, score, proposed } = plant;
  const y = -yMm, choice = choiceOf(score?.class ?? (proposals ? proposed?.class : undefined));
  if (choice !== undefined) return <g className={`mark ${score ? 'scored' : 'proposal'}`}><circle cx={x} cy={y} r={size * 0.62} /><text x={x} y={y} fontSize={size} textAnchor="middle" dominantBaseline="central">{choice.letter}</text></g>;
  if (reasons.length > 0) return <path className="mark watched" d={`M${x} ${y - size * 0.6}l${size * 0.6} ${size * 0.6}-${size * 0.6} ${size * 0.6}-${size * 0.6}-${size * 0.6}z`} />;
  if (measures === undefined) return <path className="mark empty" d={`M${x - size * 0.28} ${y - size * 0.28}l${size * 0.56} ${size * 0.56}m0-${size * 0.56}l-${size * 0.56} ${size * 0.56}`} />;
  return <circle className="mark" cx={x} cy={y} r={size * 0.14} />;
}
