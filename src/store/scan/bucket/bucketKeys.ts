/** What lets this program read a bucket. Only ever from the environment: never in the greenhouse folder, never logged. */
export interface BucketKeys { readonly accessKeyId: string; readonly secretAccessKey: string; readonly sessionToken?: string }

export const KEY_NAMES = ['AWS_ACCESS_KEY_ID', 'AWS_SECRET_ACCESS_KEY', 'AWS_SESSION_TOKEN'] as const;

/** The keys in the environment, under the names that programs for S3-compatible storage share; undefined where one of the first two is absent. */
export function bucketKeys(environment: Readonly<Record<string, string | undefined>>): BucketKeys | undefined {
  const [accessKeyId, secretAccessKey, sessionToken] = KEY_NAMES.map((name) => environment[name]?.trim() || undefined);
  if (accessKeyId === undefined || secretAccessKey === undefined) return undefined;
  return { accessKeyId, secretAccessKey, ...(sessionToken === undefined ? {} : { sessionToken }) };
}
