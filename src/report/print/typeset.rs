//! Words into glyphs of the embedded typeface, as wide as they are printed, and into lines.
//!
//! Knows no page. Start at [`Face`].

use crate::report::charts::fonts;
use rustybuzz::{Direction, ShapePlan};
use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

/// How words are set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Style {
    /// Size, points.
    pub size: f64,
    /// Semi-bold instead of regular.
    pub bold: bool,
    /// Red, green, blue.
    pub colour: [u8; 3],
}

/// One glyph of a line; lengths are shares of the font's size.
#[derive(Debug, Clone, PartialEq)]
pub struct Shaped {
    /// Its number in the font.
    pub glyph: u32,
    /// How far it moves on.
    pub advance: f32,
    /// How far it is moved aside.
    pub offset: (f32, f32),
    /// The bytes of the text it stands for.
    pub text: Range<usize>,
}

/// One weight of the embedded typeface.
pub struct Face {
    face: Option<rustybuzz::Face<'static>>,
    plans: Mutex<Vec<Planned>>,
    measured: Mutex<BTreeMap<String, f64>>,
}

/// How letters of one script are shaped, digits of one width or not: dear to make, the same for every line.
struct Planned {
    script: Option<rustybuzz::Script>,
    tabular: bool,
    plan: Arc<ShapePlan>,
}

/// More lines than this are not kept measured.
const MOST_MEASURED: usize = 50_000;

static REGULAR: LazyLock<Face> = LazyLock::new(|| Face::read(fonts::REGULAR));
static SEMI_BOLD: LazyLock<Face> = LazyLock::new(|| Face::read(fonts::SEMI_BOLD));

impl Face {
    fn read(bytes: &'static [u8]) -> Self {
        let face = rustybuzz::Face::from_slice(bytes, 0);
        Self { face, plans: Mutex::default(), measured: Mutex::default() }
    }

    /// The weight that a style is set in.
    pub fn of(style: &Style) -> &'static Self {
        if style.bold { &SEMI_BOLD } else { &REGULAR }
    }

    /// The glyphs of one line, digits of one width so that columns stand under each other.
    pub fn shape(&self, text: &str) -> Vec<Shaped> {
        let Some(face) = &self.face else { return Vec::new() };
        let mut buffer = rustybuzz::UnicodeBuffer::new();
        buffer.push_str(text);
        buffer.set_direction(Direction::LeftToRight);
        buffer.guess_segment_properties();
        let script = Some(buffer.script()).filter(|script| *script != rustybuzz::script::UNKNOWN);
        let plan = self.plan(face, script, text.contains(|letter: char| letter.is_ascii_digit()));
        let set = rustybuzz::shape_with_plan(face, &plan, buffer);
        let em = face.units_per_em() as f32;
        let starts: Vec<usize> = set.glyph_infos().iter().map(|info| info.cluster as usize).collect();
        let glyphs = set.glyph_infos().iter().zip(set.glyph_positions());
        let shaped = glyphs.map(|(info, at)| {
            let from = info.cluster as usize;
            let to = starts.iter().copied().filter(|start| *start > from).min().unwrap_or(text.len());
            Shaped {
                glyph: info.glyph_id,
                advance: at.x_advance as f32 / em,
                offset: (at.x_offset as f32 / em, at.y_offset as f32 / em),
                text: from..to,
            }
        });
        shaped.collect()
    }

    fn plan(
        &self,
        face: &rustybuzz::Face<'static>,
        script: Option<rustybuzz::Script>,
        tabular: bool,
    ) -> Arc<ShapePlan> {
        let mut plans = self.plans.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = plans.iter().find(|p| p.script == script && p.tabular == tabular) {
            return Arc::clone(&known.plan);
        }
        let tag = rustybuzz::ttf_parser::Tag::from_bytes(b"tnum");
        let features: Vec<_> = tabular.then(|| rustybuzz::Feature::new(tag, 1, ..)).into_iter().collect();
        let plan = Arc::new(ShapePlan::new(face, Direction::LeftToRight, script, None, &features));
        plans.push(Planned { script, tabular, plan: Arc::clone(&plan) });
        plan
    }

    /// How wide one line is, as a share of the font's size; what was asked before is known.
    fn ems(&self, text: &str) -> f64 {
        let known = || self.measured.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(ems) = known().get(text) {
            return *ems;
        }
        let ems = self.shape(text).into_iter().map(|glyph| f64::from(glyph.advance)).sum();
        let mut measured = known();
        if measured.len() >= MOST_MEASURED {
            measured.clear();
        }
        measured.insert(text.to_owned(), ems);
        ems
    }
}

/// How wide one line of `text` is, points.
pub fn width(text: &str, style: &Style) -> f64 {
    Face::of(style).ems(text) * style.size
}

/// `text` in lines of at most `room` points; a word that is wider than that is cut where it must be.
pub fn lines(text: &str, style: &Style, room: f64) -> Vec<String> {
    let words: Vec<&str> = text.split(' ').collect();
    let (mut lines, mut line, mut at) = (Vec::new(), String::new(), 0);
    loop {
        let left = words.get(at..).unwrap_or_default();
        let fitting = fitting(&line, left, style, room);
        line = joined(&line, left.iter().take(fitting));
        at += fitting + 1;
        let Some(word) = left.get(fitting) else { break };
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        line = cut(word, style, room, &mut lines);
    }
    lines.push(line);
    lines
}

/// How many of `words` still fit behind `line`. Guessed from the words' own widths and then measured: what
/// stands beside a word moves it a little, but a line with a word more is always wider.
fn fitting(line: &str, words: &[&str], style: &Style, room: f64) -> usize {
    let fits = |count: usize| width(&joined(line, words.iter().take(count)), style) <= room;
    let space = width(" ", style);
    let mut wide = if line.is_empty() { -space } else { width(line, style) };
    let beyond = words.iter().position(|word| {
        wide += space + width(word, style);
        wide > room
    });
    let mut count = beyond.unwrap_or(words.len());
    if count == 0 || fits(count) {
        while count < words.len() && fits(count + 1) {
            count += 1;
        }
        return count;
    }
    while count > 0 && !fits(count) {
        count -= 1;
    }
    count
}

/// A line with words behind it.
fn joined<'a>(line: &str, words: impl Iterator<Item = &'a &'a str>) -> String {
    let mut line = line.to_owned();
    for word in words {
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    line
}

/// Cuts what is too wide of a word into lines of its own; gives the rest.
fn cut(word: &str, style: &Style, room: f64, lines: &mut Vec<String>) -> String {
    let mut rest = String::new();
    for letter in word.chars() {
        let longer = format!("{rest}{letter}");
        if !rest.is_empty() && width(&longer, style) > room {
            lines.push(std::mem::replace(&mut rest, letter.to_string()));
        } else {
            rest = longer;
        }
    }
    rest
}

/// The width of the widest word, which no column may be narrower than.
pub fn widest_word(text: &str, style: &Style) -> f64 {
    text.split(' ').map(|word| width(word, style)).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLAIN: Style = Style { size: 10.0, bold: false, colour: [0, 0, 0] };

    #[test]
    fn no_line_is_wider_than_its_room_and_no_word_is_lost() {
        let text = "the heat pump and the furnace take turns inadvertentlyhyperextended";
        for room in [30.0, 60.0, 200.0, 1000.0] {
            let found = lines(text, &PLAIN, room);
            assert!(found.iter().all(|line| width(line, &PLAIN) <= room), "{found:?}");
            let letters = |s: &str| s.replace(' ', "");
            assert_eq!(letters(&found.concat()), letters(text));
        }
    }

    #[test]
    fn all_digits_are_equally_wide() {
        let one = width("1", &PLAIN);
        assert!("023456789".chars().all(|d| (width(&d.to_string(), &PLAIN) - one).abs() < 1e-9));
        assert!(one > 0.0);
    }
}
