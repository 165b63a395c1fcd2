import type { TankView } from '../../desk/contract.ts';

const WIDTH = 44;
const HEIGHT = 78;
const INSIDE = 66;

/** A tank with its level: ink line at the volume, a light band for one standard deviation, a notch at each quarter, a dotted line at what is left tonight. */
export function TankGauge({ tank }: { readonly tank: Pick<TankView, 'title' | 'volumeL' | 'volumeSdL' | 'capacityL' | 'drawnTodayL' | 'putInTodayL'> }) {
  const y = (litres: number) => HEIGHT - 4 - Math.min(1, Math.max(0, litres / tank.capacityL)) * INSIDE;
  const sd = tank.volumeSdL ?? 0;
  const left = tank.volumeL - tank.drawnTodayL + tank.putInTodayL;
  return (
    <svg className="tank-gauge" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} width={WIDTH} height={HEIGHT} aria-hidden="true">
      <rect x="4" y={y(tank.volumeL)} width="32" height={HEIGHT - 4 - y(tank.volumeL)} className="fill" />
      {sd > 0 && <rect x="4" y={y(tank.volumeL + sd)} width="32" height={y(tank.volumeL - sd) - y(tank.volumeL + sd)} className="doubt" />}
      {tank.drawnTodayL + tank.putInTodayL > 0 && <line x1="4" x2="36" y1={y(left)} y2={y(left)} className="left" />}
      <line x1="4" x2="36" y1={y(tank.volumeL)} y2={y(tank.volumeL)} className="level" />
      {[0.25, 0.5, 0.75].map((share) => <line key={share} x1="36" x2="40" y1={y(share * tank.capacityL)} y2={y(share * tank.capacityL)} className="notch" />)}
      <path d={`M4 6V${HEIGHT - 4}H36V6`} className="wall" />
    </svg>
  );
}
