// The line at the foot: where the cross stands, and what is there in each alternative.

export function showReadings(list, readings) {
  list.replaceChildren(
    ...readings.map(({ name, degrees, material }) => {
      const pair = document.createElement('div');
      pair.append(
        Object.assign(document.createElement('dt'), { textContent: name }),
        Object.assign(document.createElement('dd'), { textContent: degrees, className: 'degrees' }),
        Object.assign(document.createElement('dd'), { textContent: material, className: 'material' }),
      );
      return pair;
    }),
  );
}

export function spokenWords(where, readings) {
  return [where, ...readings.map(({ name, degrees, material }) => `${name}: ${degrees || 'none'}, ${material}`)].join('. ');
}
