//! Words into glyphs of the embedded typeface, as wide as they are printed, and into lines.
//!
//! Knows no page. Start at [`Face`].

use crate::report::charts::fonts;
use std::ops::Range;
use std::sync::LazyLock;

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
}

static REGULAR: LazyLock<Face> = LazyLock::new(|| Face::read(fonts::REGULAR));
static SEMI_BOLD: LazyLock<Face> = LazyLock::new(|| Face::read(fonts::SEMI_BOLD));

impl Face {
    fn read(bytes: &'static [u8]) -> Self {
        Self { face: rustybuzz::Face::from_slice(bytes, 0) }
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
        buffer.set_direction(rustybuzz::Direction::LeftToRight);
        let set = rustybuzz::shape(face, &tabular(text), buffer);
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
}

/// Digits of one width, in a line that has any.
fn tabular(text: &str) -> Vec<rustybuzz::Feature> {
    let tag = rustybuzz::ttf_parser::Tag::from_bytes(b"tnum");
    let digits = text.contains(|letter: char| letter.is_ascii_digit());
    digits.then(|| rustybuzz::Feature::new(tag, 1, ..)).into_iter().collect()
}

/// How wide one line of `text` is, points.
pub fn width(text: &str, style: &Style) -> f64 {
    let advances = Face::of(style).shape(text).into_iter().map(|glyph| f64::from(glyph.advance));
    advances.sum::<f64>() * style.size
}

/// `text` in lines of at most `room` points; a word that is wider than that is cut where it must be.
pub fn lines(text: &str, style: &Style, room: f64) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split(' ') {
        let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if width(&longer, style) <= room {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        line = cut(word, style, room, &mut lines);
    }
    lines.push(line);
    lines
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
