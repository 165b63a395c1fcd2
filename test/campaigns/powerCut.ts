// Power cuts while a program writes: npx tsx test/campaigns/powerCut.ts [trials] [seed]. Needs Linux, root, mkfs.ext4, a loop device and perl.
//
// The greenhouse lies on an ext4 file system of its own, which is shut down in the midst of writes (ioctl EXT4_IOC_SHUTDOWN without a
// flush of the journal): whatever was not flushed to the disk by then is gone, as in a power cut. Then everything is killed, the file
// system mounted again, the store opened, and each acknowledgement that was ever read is looked for. Every fourth cut meets a
// greenhouse in its first second.
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { databasePaths } from '../../src/store/engine/databasePaths.ts';
import { runningOn } from '../../src/store/engine/leftovers.ts';
import { compare, countAcknowledged, describeTally, newTally, seededRandom } from '../store/killTrials.ts';
import { type Said, runWriter } from '../store/programs/runWriter.ts';
import { mustOpen } from '../store/testStore.ts';

// linux/fs/ext4/ext4.h: EXT4_IOC_SHUTDOWN = _IOR('X', 125, __u32), EXT4_GOING_FLAGS_NOLOGFLUSH = 2.
const CUT = `$| = 1; open(my $d, '<', $ARGV[0]) or die $!; print "armed\\n"; <STDIN>; my $how = pack('L', 2); ioctl($d, 0x8004587D, $how) or die $!;`;

const trials = Number(process.argv[2] ?? 20);
const random = seededRandom(Number(process.argv[3] ?? 20_261_125));
const home = mkdtempSync(join(tmpdir(), 'watermeadow-power-'));
const disk = join(home, 'disk');
const image = join(home, 'image');
run('truncate', '-s', '3G', image);
run('mkfs.ext4', '-q', image);
mkdirSync(disk);

const tally = newTally();
const all: Said[] = [];
let acknowledged: Said[] = [];
let folder = '';
let inEarlierJournals = 0;
for (; tally.trials < trials; tally.trials += 1) {
  run('mount', '-o', 'loop', image, disk);
  if (tally.trials % 4 === 0) {
    folder = join(disk, `greenhouse-${tally.trials}`);
    mkdirSync(folder);
    acknowledged = [];
    inEarlierJournals += tally.unacknowledgedCalls;
    tally.unacknowledgedCalls = 0;
  }
  const said = await cutWhileWriting(tally.trials);
  all.push(...said);
  acknowledged.push(...said);
  run('mount', '-o', 'loop', image, disk);
  await compare(() => mustOpen({ folder, greenhouse: 'trials' }), acknowledged, tally).catch((error: unknown) => tally.broken.push(`trial ${tally.trials} does not open: ${String(error)}`));
  console.log(`cut ${tally.trials}: ${acknowledged.filter(({ call }) => call !== undefined).length} calls acknowledged so far here, ${tally.unacknowledgedCalls} in the journal, ${tally.lost.length} lost, ${tally.broken.length} broken`);
  run('umount', disk);
}
tally.unacknowledgedCalls += inEarlierJournals;
countAcknowledged(all, tally);
console.log(describeTally('power cut, embedded database', tally));
for (const line of [...tally.lost, ...tally.broken]) console.log(line);
rmSync(home, { recursive: true });
process.exit(tally.lost.length + tally.broken.length === 0 ? 0 : 1);

/** Cuts the power at a random moment after the first acknowledgement; what was acknowledged until then, and after. */
async function cutWhileWriting(trial: number): Promise<readonly Said[]> {
  const helper = spawn('perl', ['-e', CUT, disk], { stdio: ['pipe', 'pipe', 'inherit'] });
  await new Promise((resolve) => { helper.stdout.once('data', resolve); });
  const writer = runWriter(folder, 'trials', '', `cut ${trial}`);
  await writer.until(({ call }) => call !== undefined);
  await sleep(random() * 1_500);
  helper.stdin.end('\n');
  await ended(helper);
  await sleep(50);
  writer.child.kill('SIGKILL');
  await writer.ended;
  for (const pid of runningOn(databasePaths(join(folder, '.watermeadow')))) kill(pid);
  for (let tries = 0; spawnSync('umount', [disk]).status !== 0; tries += 1) {
    if (tries > 200) throw new Error('the disk cannot be unmounted');
    for (const pid of runningOn(databasePaths(join(folder, '.watermeadow')))) kill(pid);
    await sleep(50);
  }
  return writer.said;
}

function ended(child: ChildProcess): Promise<unknown> {
  return new Promise((resolve) => { child.once('exit', resolve); });
}

function kill(pid: number): void {
  try {
    process.kill(pid, 'SIGKILL');
  } catch {
    // It ended meanwhile.
  }
}

function run(command: string, ...args: string[]): void {
  const { status, stderr, error } = spawnSync(command, args, { encoding: 'utf8' });
  if (status !== 0) throw new Error(`${command} ${args.join(' ')}: ${error?.message ?? stderr}`);
}
