// What the page was handed: base 64, deflated JSON.

export function canUnpack() {
  return typeof DecompressionStream === 'function';
}

export async function unpacked(letters) {
  const bytes = Uint8Array.from(atob(letters), (letter) => letter.charCodeAt(0));
  const inflated = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  return JSON.parse(await new Response(inflated).text());
}
