// Prints one line a test, what it measured, and at the end the line that .ci/run adds up.
const indented = (text) => text.replace(/^/gm, '       ');

function story(error) {
  const cause = error?.cause ?? error;
  return typeof cause === 'object' && cause !== null ? (cause.stack ?? cause.message ?? String(cause)) : String(cause);
}

export default async function* report(source) {
  let passed = 0;
  let failed = 0;
  for await (const { type, data } of source) {
    if (
      type === 'test:diagnostic' &&
      data.file !== undefined &&
      !/^(tests|suites|pass|fail|cancelled|skipped|todo|duration_ms) /.test(data.message)
    ) {
      yield indented(data.message) + '\n';
    } else if (type === 'test:stderr') {
      yield data.message;
    } else if (type === 'test:pass' && data.details?.type !== 'suite') {
      ++passed;
      yield `  ok   ${data.name} (${Math.round(data.details.duration_ms)} ms)\n`;
    } else if (type === 'test:fail' && data.details?.type !== 'suite') {
      ++failed;
      yield `FAIL   ${data.name}\n${indented(story(data.details.error))}\n`;
    }
  }
  yield `${passed} passed, ${failed} failed\n`;
}
