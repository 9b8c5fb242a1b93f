/** Part of the bench while it is worked on: loads the page anew when there is a new build. */
const LOOK_MS = 700;
let shown;

async function look() {
  const answer = await fetch('/build.txt', { cache: 'no-store' }).catch(() => undefined);
  const build = answer?.ok ? await answer.text() : undefined;
  if (build && shown && build !== shown) location.reload();
  else {
    shown ??= build;
    setTimeout(look, LOOK_MS);
  }
}
void look();
