//! Our colours: which end use or machine is drawn in which, and why.
//!
//! Knows names only. Start at [`end_use`].
//!
//! **Why these.** Heating is the deep blue of a winter evening and backup heat an ember, because the
//! question of every chart is how much of the first is rescued by the second; cooling is ice, standby
//! slate, fixed charges iris. The rest are muted earth and orchard tones that step back. Hand-picked
//! starting points were then moved, never far, to make the least distance between any two as
//! large as possible for full colour sight and for total deuteranopia and protanopia: thirteen hues
//! cannot be told apart by dichromats, so the set leans on differences of lightness, and a test holds the distances.
//! No chart relies on colour alone: parts are printed in one order with white gaps, a key
//! and amounts; lines carry their names.

/// A colour as red, green, blue in sRGB, 0–255.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Colour(pub(super) u8, pub(super) u8, pub(super) u8);

/// The ground.
pub(super) const WHITE: Colour = Colour(0xFF, 0xFF, 0xFF);
/// Titles, names, the load line.
pub(super) const INK: Colour = Colour(0x17, 0x20, 0x2A);
/// Secondary text.
pub(super) const MUTED: Colour = Colour(0x55, 0x60, 0x6C);
/// Base lines and tick marks.
pub(super) const AXIS: Colour = Colour(0x98, 0xA1, 0xAB);
/// The light horizontal grid.
pub(super) const GRID: Colour = Colour(0xE3, 0xE6, 0xEA);
/// The bars of hours.
pub(super) const HOURS: Colour = Colour(0xA9, 0xB4, 0xC2);
/// The mark of an option that leaves the house cold.
pub(super) const ALARM: Colour = Colour(0x9C, 0x1C, 0x1C);

/// What is brought to a store, and the words that say how much.
pub(super) const DELIVERED: Colour = Colour(0x12, 0x60, 0x64);

/// End uses with a colour of their own.
const END_USES: [(&str, Colour); 13] = [
    ("space heating", Colour(0x0D, 0x2F, 0x63)),
    ("backup heat", Colour(0xC0, 0x46, 0x0C)),
    ("cooling", Colour(0x96, 0xC6, 0xFC)),
    ("standby", Colour(0x79, 0x8E, 0xA7)),
    ("fixed charge", Colour(0x58, 0x55, 0xB9)),
    ("base", Colour(0xEE, 0xC9, 0x7E)),
    ("hot water", Colour(0xBB, 0x8B, 0x13)),
    ("cooking", Colour(0x7A, 0x45, 0x66)),
    ("drying", Colour(0xEC, 0x95, 0x83)),
    ("delivery", Colour(0xA5, 0xBF, 0x0B)),
    ("rent", Colour(0x22, 0x82, 0x63)),
    ("stock change", Colour(0x90, 0xDD, 0xC6)),
    ("upkeep", Colour(0x77, 0x39, 0x11)),
];

/// Lines of machines, in order; all at least 3:1 against white.
const LINES: [Colour; 5] = [
    Colour(0x0F, 0x76, 0xDD),
    Colour(0xAD, 0x38, 0x00),
    Colour(0x1D, 0x84, 0x88),
    Colour(0x65, 0x33, 0x6C),
    Colour(0xBF, 0x84, 0x07),
];

/// Colours of options, in the job's order: those of lines, and three more.
const OPTIONS: [Colour; 8] = [
    LINES[0],
    LINES[1],
    LINES[2],
    LINES[3],
    LINES[4],
    Colour(0x22, 0x11, 0xCC),
    Colour(0x66, 0x99, 0xCC),
    Colour(0x77, 0x22, 0x11),
];

/// The colour of the n-th option, the same in every chart and table; starts over after eight.
pub(super) fn option(index: usize) -> Colour {
    OPTIONS.get(index % OPTIONS.len()).copied().unwrap_or(INK)
}

/// The colour of the n-th option as red, green, blue.
///
/// ```
/// use winterledger::report::charts::option_colour;
/// assert_ne!(option_colour(0), option_colour(1));
/// ```
pub fn option_colour(index: usize) -> [u8; 3] {
    let Colour(red, green, blue) = option(index);
    [red, green, blue]
}

/// The colour of an end use, by its name and so the same in every chart; a name that is not known
/// gets a grey that depends on its letters.
pub(super) fn end_use(name: &str) -> Colour {
    let wanted = name.trim().to_lowercase();
    let known = END_USES.iter().find(|(known, _)| *known == wanted).map(|(_, colour)| *colour);
    known.unwrap_or_else(|| {
        let sum: u32 = wanted.bytes().map(u32::from).sum();
        let grey = 0x60 + (sum % 5) as u8 * 0x16;
        Colour(grey, grey, grey)
    })
}

/// The colour of the n-th machine's line; starts over after five.
pub(super) fn line(index: usize) -> Colour {
    LINES.get(index % LINES.len()).copied().unwrap_or(INK)
}

/// Ink or white, whichever reads better on the given ground.
pub(super) fn text_on(ground: Colour) -> Colour {
    // WCAG 2 contrast with white is above that with black below a luminance of 0.179.
    if ground.luminance() < 0.2 { WHITE } else { INK }
}

impl Colour {
    /// This colour with a share (0–1) of another mixed in.
    pub(super) fn mixed(self, other: Colour, share: f64) -> Colour {
        let blend = |a: u8, b: u8| (f64::from(a) * (1.0 - share) + f64::from(b) * share).round() as u8;
        Colour(blend(self.0, other.0), blend(self.1, other.1), blend(self.2, other.2))
    }

    /// Red, green and blue as light, 0–1 (the sRGB transfer curve of IEC 61966-2-1).
    fn linear(self) -> [f64; 3] {
        [self.0, self.1, self.2].map(|channel| {
            let c = f64::from(channel) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        })
    }

    /// Relative luminance, 0–1 (WCAG 2).
    fn luminance(self) -> f64 {
        let [r, g, b] = self.linear();
        0.2126 * r + 0.7152 * g + 0.0722 * b
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    type Matrix = [[f64; 3]; 3];
    const FULL: Matrix = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
    // Machado, Oliveira, Fernandes, "A Physiologically-based Model for Simulation of Color Vision
    // Deficiency", IEEE TVCG 15(6), 2009, severity 1.0; written down from memory.
    const DEUTERANOPIA: Matrix =
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]];
    const PROTANOPIA: Matrix =
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]];

    fn times(m: &Matrix, v: [f64; 3]) -> [f64; 3] {
        m.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
    }

    /// Oklab (B. Ottosson, 2020), coefficients from memory.
    fn oklab(light: [f64; 3]) -> [f64; 3] {
        let light = light.map(|c| c.clamp(0.0, 1.0));
        let cones: Matrix = [
            [0.4122214708, 0.5363325363, 0.0514459929],
            [0.2119034982, 0.6806995451, 0.1073969566],
            [0.0883024619, 0.2817188376, 0.6299787005],
        ];
        let lab: Matrix = [
            [0.2104542553, 0.7936177850, -0.0040720468],
            [1.9779984951, -2.4285922050, 0.4505937099],
            [0.0259040371, 0.7827717662, -0.8086757660],
        ];
        times(&lab, times(&cones, light).map(f64::cbrt))
    }

    /// The least Oklab distance (×100) between two colours over the three kinds of sight.
    fn distance(a: Colour, b: Colour) -> f64 {
        [FULL, DEUTERANOPIA, PROTANOPIA]
            .iter()
            .map(|sight| {
                let (p, q) = (oklab(times(sight, a.linear())), oklab(times(sight, b.linear())));
                p.iter().zip(q).map(|(x, y)| (x - y).powi(2)).sum::<f64>().sqrt() * 100.0
            })
            .fold(f64::INFINITY, f64::min)
    }

    fn least(colours: &[Colour]) -> f64 {
        let pairs = colours
            .iter()
            .enumerate()
            .flat_map(|(i, a)| colours[i + 1..].iter().map(move |b| distance(*a, *b)));
        pairs.fold(f64::INFINITY, f64::min)
    }

    #[test]
    fn colours_stay_apart_for_red_and_green_blind_eyes() {
        // The bounds are our own: about 2 is just seen side by side (common practice for Oklab × 100),
        // so 7 is more than three times that; the five parts nearly every bar has keep 17.
        let all: Vec<Colour> = END_USES.iter().map(|(_, colour)| *colour).collect();
        assert!(least(&all) > 7.0, "all: {}", least(&all));
        assert!(least(&all[..5]) > 17.0, "main five: {}", least(&all[..5]));
        let options = [OPTIONS.as_slice(), &[INK]].concat();
        assert!(least(&options) > 7.0, "options: {}", least(&options));
        let lines = [LINES.as_slice(), &[INK]].concat();
        assert!(least(&lines) > 14.0, "lines: {}", least(&lines));
    }

    #[test]
    fn lines_and_text_can_be_read() {
        // WCAG 2.1: 3:1 for graphics (criterion 1.4.11), 4.5:1 for text (1.4.3).
        let contrast = |a: Colour, b: Colour| {
            let (x, y) = (a.luminance() + 0.05, b.luminance() + 0.05);
            x.max(y) / x.min(y)
        };
        assert!(OPTIONS.iter().all(|c| contrast(*c, WHITE) >= 3.0));
        assert!(LINES.iter().all(|c| contrast(c.mixed(INK, 0.35), WHITE) >= 4.5));
        assert!([INK, MUTED, ALARM, DELIVERED].iter().all(|c| contrast(*c, WHITE) >= 4.5));
        for (name, colour) in END_USES {
            assert!(contrast(text_on(colour), colour) >= 4.5, "{name}");
        }
    }

    #[test]
    fn a_name_keeps_its_colour() {
        assert_eq!(end_use("Space heating"), end_use("space heating"));
        assert_eq!(end_use("snow melting"), end_use("snow melting"));
    }
}
