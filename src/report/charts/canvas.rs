//! Turns strokes, shapes and words in fractional pixels into an SVG string.
//!
//! The one module that knows plotters. plotters places everything on whole pixels, so the sheet is
//! ten times too large and only its shown size is shrunk: a tenth of a pixel is then exact. Must not
//! know what is drawn. Start at [`picture`]; words are measured here and nowhere else, by [`width`].

use std::sync::LazyLock;

use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{FontStyle, register_font};

use super::ChartError;
use super::fonts;
use super::palette::{self, Colour};

/// How many times too large the sheet is.
const K: f64 = 10.0;
/// plotters writes a font of size s as `font-size = s / 1.24`.
const PLOTTERS_SHRINK: f64 = 1.24;
/// It measures s as the height from ascender to descender instead: 2,478 of 2,048 units in Inter.
const ASCENDER_TO_DESCENDER: f64 = 2478.0 / 2048.0;

/// A point in pixels, from the upper left corner.
pub(super) type Point = (f64, f64);

/// Where words stand about their point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Align {
    /// The point is the words' left end.
    Left,
    /// The point is their middle.
    Middle,
    /// The point is their right end.
    Right,
}

/// How words look.
#[derive(Debug, Clone, Copy)]
pub(super) struct Type {
    /// Font size in pixels.
    pub(super) size: f64,
    /// SemiBold instead of Regular.
    pub(super) bold: bool,
    /// Colour.
    pub(super) colour: Colour,
}

impl Type {
    /// Regular weight.
    pub(super) const fn plain(size: f64, colour: Colour) -> Self {
        Self { size, bold: false, colour }
    }

    /// SemiBold.
    pub(super) const fn bold(size: f64, colour: Colour) -> Self {
        Self { size, bold: true, colour }
    }
}

/// How a line looks: its width in pixels and its colour.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stroke(pub(super) f64, pub(super) Colour);

/// A sheet that is being drawn on.
pub(super) struct Canvas<'a> {
    area: DrawingArea<SVGBackend<'a>, Shift>,
}

/// What a sheet is, apart from what is drawn on it.
pub(super) struct Sheet<'a> {
    /// Width in pixels.
    pub(super) width: f64,
    /// Height in pixels.
    pub(super) height: f64,
    /// Read aloud by a screen reader first.
    pub(super) title: &'a str,
    /// Read aloud after the title: what the picture shows, in words.
    pub(super) description: &'a str,
}

static REGISTERED: LazyLock<bool> = LazyLock::new(|| {
    register_font(fonts::FAMILY, FontStyle::Normal, fonts::REGULAR).is_ok()
        && register_font(fonts::FAMILY, FontStyle::Bold, fonts::SEMI_BOLD).is_ok()
});

/// Draws one picture on white and returns its SVG.
pub(super) fn picture(
    sheet: &Sheet<'_>,
    draw: impl FnOnce(&Canvas<'_>) -> Result<(), ChartError>,
) -> Result<String, ChartError> {
    if !*REGISTERED {
        return Err(ChartError::Drawing("the embedded fonts are damaged".into()));
    }
    let (width, height) = (sheet.width.ceil(), sheet.height.ceil());
    let mut svg = String::new();
    {
        let size = ((width * K) as u32, (height * K) as u32);
        let canvas = Canvas { area: SVGBackend::with_string(&mut svg, size).into_drawing_area() };
        canvas.rectangle((0.0, 0.0), (width, height), palette::WHITE, 1.0)?;
        draw(&canvas)?;
        canvas.area.present().map_err(failed)?;
    }
    Ok(finished(&svg, width, height, sheet))
}

/// Shrinks the shown size, names fallback fonts and adds what a screen reader reads.
fn finished(svg: &str, width: f64, height: f64, sheet: &Sheet<'_>) -> String {
    let body = svg.split_once('>').map_or("", |(_, body)| body);
    let family = format!("font-family=\"{}, Arial, sans-serif\"", fonts::FAMILY);
    let body = body.replace(&format!("font-family=\"{}\"", fonts::FAMILY), &family);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"0 0 {} {}\" role=\"img\" stroke-linejoin=\"round\">\n<title>{}</title>\n<desc>{}</desc>{body}",
        width * K,
        height * K,
        escaped(sheet.title),
        escaped(sheet.description),
    )
}

fn escaped(text: &str) -> String {
    cleaned(text).replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

/// XML allows no control characters: they become spaces.
fn cleaned(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_control() || matches!(c, '\u{FFFE}' | '\u{FFFF}') { ' ' } else { c })
        .collect()
}

fn failed(error: impl std::fmt::Display) -> ChartError {
    ChartError::Drawing(error.to_string())
}

fn scaled((x, y): Point) -> (i32, i32) {
    ((x * K).round() as i32, (y * K).round() as i32)
}

fn paint(Colour(r, g, b): Colour, opacity: f64) -> RGBAColor {
    RGBColor(r, g, b).mix(opacity)
}

fn stroked(Stroke(width, colour): Stroke) -> ShapeStyle {
    paint(colour, 1.0).stroke_width((width * K).round() as u32)
}

fn font(kind: &Type) -> FontDesc<'static> {
    let style = if kind.bold { FontStyle::Bold } else { FontStyle::Normal };
    FontDesc::new(FontFamily::Name(fonts::FAMILY), kind.size * K * PLOTTERS_SHRINK, style)
}

/// The width of words in pixels, kerning not counted (which makes it at most a little too wide).
pub(super) fn width(text: &str, kind: &Type) -> Result<f64, ChartError> {
    if !*REGISTERED {
        return Err(ChartError::Drawing("the embedded fonts are damaged".into()));
    }
    let (measured, _) = font(kind).box_size(&cleaned(text)).map_err(failed)?;
    Ok(f64::from(measured) / K * ASCENDER_TO_DESCENDER / PLOTTERS_SHRINK)
}

/// Breaks words into lines no wider than `widest`; what does not fit into `most` lines is cut with “…”: one
/// line at its end, of several the last one at its beginning, since long names differ at their ends.
pub(super) fn wrapped(text: &str, kind: &Type, widest: f64, most: usize) -> Result<Vec<String>, ChartError> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let longer = if line.is_empty() { word.to_string() } else { format!("{line} {word}") };
        if width(&longer, kind)? <= widest || line.is_empty() {
            line = longer;
        } else {
            lines.push(std::mem::replace(&mut line, word.to_string()));
        }
    }
    lines.push(line);
    let cut = lines.len() > most;
    lines.truncate(most.max(1));
    if cut && let Some(last) = lines.last_mut() {
        *last = match most {
            0 | 1 => format!("{last}…"),
            _ => ending(text, kind, widest)?,
        };
    }
    lines.into_iter().map(|line| shortened(line, kind, widest)).collect()
}

/// The last words that find room behind “…”.
fn ending(text: &str, kind: &Type, widest: f64) -> Result<String, ChartError> {
    let mut line = String::new();
    for word in text.split_whitespace().rev() {
        let longer = if line.is_empty() { word.to_owned() } else { format!("{word} {line}") };
        if !line.is_empty() && width(&format!("…{longer}"), kind)? > widest {
            break;
        }
        line = longer;
    }
    Ok(format!("…{line}"))
}

/// Cuts one line to fit, ending it in “…”.
fn shortened(line: String, kind: &Type, widest: f64) -> Result<String, ChartError> {
    if width(&line, kind)? <= widest {
        return Ok(line);
    }
    let mut letters: Vec<char> = line.trim_end_matches('…').chars().collect();
    loop {
        let text = format!("{}…", letters.iter().collect::<String>().trim_end());
        if letters.is_empty() || width(&text, kind)? <= widest {
            return Ok(text);
        }
        letters.pop();
    }
}

impl Canvas<'_> {
    /// A filled rectangle between two corners.
    pub(super) fn rectangle(
        &self,
        from: Point,
        to: Point,
        fill: Colour,
        opacity: f64,
    ) -> Result<(), ChartError> {
        let style = paint(fill, opacity).filled();
        self.area.draw(&Rectangle::new([scaled(from), scaled(to)], style)).map_err(failed)
    }

    /// A line through points.
    pub(super) fn path(&self, points: &[Point], stroke: Stroke) -> Result<(), ChartError> {
        let points: Vec<_> = points.iter().copied().map(scaled).collect();
        self.area.draw(&PathElement::new(points, stroked(stroke))).map_err(failed)
    }

    /// A filled shape around points.
    pub(super) fn shape(&self, points: &[Point], fill: Colour, opacity: f64) -> Result<(), ChartError> {
        let points: Vec<_> = points.iter().copied().map(scaled).collect();
        self.area.draw(&Polygon::new(points, paint(fill, opacity).filled())).map_err(failed)
    }

    /// A white ring with a coloured rim.
    pub(super) fn ring(&self, centre: Point, radius: f64, stroke: Stroke) -> Result<(), ChartError> {
        let radius = (radius * K).round() as i32;
        let ground = paint(palette::WHITE, 1.0).filled();
        self.area.draw(&Circle::new(scaled(centre), radius, ground)).map_err(failed)?;
        self.area.draw(&Circle::new(scaled(centre), radius, stroked(stroke))).map_err(failed)
    }

    /// Words whose base line runs through the point.
    pub(super) fn words(&self, text: &str, at: Point, align: Align, kind: &Type) -> Result<(), ChartError> {
        let horizontal = match align {
            Align::Left => HPos::Left,
            Align::Middle => HPos::Center,
            Align::Right => HPos::Right,
        };
        // The backend drops text hung from its top by 0.76 em to reach the base line.
        let top = (at.0, at.1 - 0.76 * kind.size);
        let colour = paint(kind.colour, 1.0);
        let style = TextStyle::from(font(kind)).color(&colour).pos(Pos::new(horizontal, VPos::Top));
        self.area.draw_text(&cleaned(text), &style, scaled(top)).map_err(failed)
    }
}
