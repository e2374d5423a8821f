"use strict";
(() => {
  const data = JSON.parse(document.getElementById("levers").textContent);
  const inputs = [...document.querySelectorAll(".lever input")];
  const money = (amount) => {
    const step = Math.abs(amount) < data.fine_below ? data.fine : data.coarse;
    const whole = Math.round(Math.abs(amount) / step) * step;
    return (amount < 0 && whole > 0 ? "\u2212" : "") + data.currency + whole.toLocaleString("en-US");
  };
  const price = (input, times) => {
    const value = Number(input.dataset.base) * times;
    const digits = value >= 100 ? 0 : value >= 1 ? 2 : 3;
    return data.currency + value.toFixed(digits) + " a " + input.dataset.unit;
  };
  const shown = (input, times) =>
    input.dataset.kind === "fuel" ? price(input, times) : times.toFixed(2) + " times the price";
  // How far a price is from the job's, which does not hang on the mean it is told as.
  const apart = (input, times) => {
    const percent = Math.round(100 * (times - 1));
    if (input.dataset.kind !== "fuel" || percent === 0) return "";
    return ` (${Math.abs(percent)} % ${percent < 0 ? "below" : "above"} the job\u2019s)`;
  };
  // Whether a fuel's price, or a spike of it, is not as the job has it.
  const fuelMoved = (at, fuel) =>
    at.fuels[fuel] !== 1 || data.spikes.some((spike, place) => spike.fuel === fuel && at.spikes[place] !== spike.times);
  const anyMoved = (at) => data.fuels.some((name, fuel) => fuelMoved(at, fuel));
  const setting = () => {
    const at = { fuels: data.fuels.map(() => 1), spikes: data.spikes.map((spike) => spike.times) };
    for (const input of inputs) {
      at[input.dataset.kind === "fuel" ? "fuels" : "spikes"][Number(input.dataset.place)] = Number(input.value);
    }
    return at;
  };
  // As the program has it: constant + the sum of amount times the factor of its fuel times those of its spikes.
  const cost = (option, at) => {
    if (option.off !== null) return option.cost;
    let moved = 0;
    for (const term of option.terms) {
      let spikes = 1;
      for (const place of term.spikes) spikes *= at.spikes[place];
      moved += term.amount * at.fuels[term.fuel] * spikes;
    }
    return option.constant + moved;
  };
  const moved = (at, input, value) => {
    const list = input.dataset.kind === "fuel" ? "fuels" : "spikes";
    const copy = { fuels: [...at.fuels], spikes: [...at.spikes] };
    copy[list][Number(input.dataset.place)] = value;
    return copy;
  };
  // Each cost is a straight line in each lever, so two options meet once at most.
  const tipping = (first, second, at, input) => {
    const gap = (value) => cost(second, moved(at, input, value)) - cost(first, moved(at, input, value));
    const free = gap(0);
    const slope = gap(1) - free;
    return Math.abs(slope) < 1e-9 ? null : -free / slope;
  };
  const show = () => {
    const at = setting();
    const costs = data.options.map((option) => cost(option, at));
    const most = Math.max(...costs, 1e-9);
    data.options.forEach((option, place) => {
      const row = document.querySelector(`[data-option="${place}"]`);
      row.dataset.exact = costs[place].toFixed(2);
      row.querySelector(".amount").textContent = money(costs[place]);
      row.querySelector("rect").setAttribute("width", (100 * Math.max(costs[place], 0)) / most);
    });
    const all = data.options.map((option, place) => place).filter((place) => data.options[place].warm);
    const stays = (place) => data.options[place].off !== null || data.options[place].held.some((fuel) => fuelMoved(at, fuel));
    const follow = all.filter((place) => !stays(place));
    // A cost that stayed behind is not set beside those that moved.
    const warm = anyMoved(at) && follow.length > 0 ? follow : all;
    const left = all.filter((place) => !warm.includes(place)).map((place) => `\u201c${data.options[place].name}\u201d`);
    const without = left.length === 0 ? "" : ` Without ${left.join(", ")}, whose cost does not follow.`;
    warm.sort((a, b) => costs[a] - costs[b]);
    const [best, next] = warm;
    const verdict = document.getElementById("now");
    if (best === undefined) {
      verdict.textContent = "None of these keeps the house warm.";
    } else if (next === undefined) {
      verdict.textContent = `\u201c${data.options[best].name}\u201d: about ${money(costs[best])} a year.`;
    } else {
      const named = (place) => `\u201c${data.options[place].name}\u201d`;
      const tie = Math.max(data.tie_amount, data.tie_share * costs[best]);
      const close = warm.filter((place) => costs[place] - costs[best] <= tie).map(named);
      verdict.textContent = close.length > 1
        ? `Too close to call: ${close.slice(0, -1).join(", ")} and ${close[close.length - 1]}.`
        : `${named(best)} costs the least, ${named(next)} about ${money(costs[next] - costs[best])} more.`;
    }
    verdict.textContent += without;
    for (const input of inputs) {
      const value = Number(input.value);
      document.getElementById(input.id + "-says").textContent = shown(input, value);
      const tip = document.getElementById(input.id + "-tip");
      const text = document.getElementById(input.id + "-text");
      const two = next === undefined ? "" : `\u201c${data.options[best].name}\u201d and \u201c${data.options[next].name}\u201d`;
      const low = Number(input.min);
      const high = Number(input.max);
      const place = Number(input.dataset.place);
      const fuel = input.dataset.kind === "fuel" ? place : data.spikes[place].fuel;
      const isOff = (option) => option !== undefined && (data.options[option].off !== null || data.options[option].held.includes(fuel));
      const off = isOff(best) || isOff(next);
      const turn = next === undefined || off ? null : tipping(data.options[best], data.options[next], at, input);
      const within = turn !== null && turn >= low && turn <= high;
      tip.hidden = !within;
      if (within) {
        // The knob's middle does not reach the ends of the track.
        tip.style.left = `calc(8px + (100% - 16px) * ${(turn - low) / (high - low)})`;
      }
      text.textContent = within
        ? `\u25b2 Here the two cheapest cost the same: ${shown(input, turn)}${apart(input, turn)}.`
        : off
          ? "One of the two cheapest does not follow this slider."
          : `Within this slider\u2019s reach ${two} keep their order; another option may come before them.`;
      input.setAttribute("aria-valuetext", shown(input, value));
    }
  };
  for (const input of inputs) input.addEventListener("input", show);
  document.getElementById("reset").addEventListener("click", () => {
    for (const input of inputs) input.value = input.dataset.start;
    show();
  });
  show();
})();
