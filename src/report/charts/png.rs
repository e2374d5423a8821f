//! Turns a chart's SVG into a PNG with the embedded fonts only, so that every machine gives the same bytes.
//!
//! Must not know which chart it is. Start at [`png`].

use std::sync::{Arc, LazyLock};

use png::{BitDepth, ColorType, Compression, Encoder, EncodingError};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree, fontdb};

use super::ChartError;
use super::fonts;

static EMBEDDED: LazyLock<Arc<fontdb::Database>> = LazyLock::new(|| {
    let mut fonts_known = fontdb::Database::new();
    fonts_known.load_font_data(fonts::REGULAR.to_vec());
    fonts_known.load_font_data(fonts::SEMI_BOLD.to_vec());
    fonts_known.set_sans_serif_family(fonts::FAMILY);
    Arc::new(fonts_known)
});

/// The widest or tallest PNG that is made, in pixels.
const MOST_PIXELS: f32 = 20_000.0;

/// Turns an SVG into a PNG.
///
/// `scale` is pixels of the PNG for each pixel of the SVG: 1 for a screen, 2 for a sharp screen, 3 for
/// print; more than 0, and such that neither side exceeds 20,000 pixels. Text is set in the embedded
/// fonts, never in those of the machine.
///
/// # Errors
/// [`ChartError::Pixels`] when the SVG cannot be read or the scale is out of range.
pub fn png(svg: &str, scale: f32) -> Result<Vec<u8>, ChartError> {
    let wrong = |why: String| ChartError::Pixels(why);
    let tree = picture_tree(svg)?;
    let (width, height) = ((tree.size().width() * scale).ceil(), (tree.size().height() * scale).ceil());
    if !(scale > 0.0 && width <= MOST_PIXELS && height <= MOST_PIXELS) {
        return Err(wrong(format!("a scale of {scale} makes it {width} × {height} pixels")));
    }
    let mut pixels =
        Pixmap::new(width as u32, height as u32).ok_or_else(|| wrong("it has no size".to_string()))?;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
    encoded(pixels).map_err(|e| wrong(e.to_string()))
}

/// Pixels as a PNG, written quickly; without transparency where nothing lets anything through.
fn encoded(pixels: Pixmap) -> Result<Vec<u8>, EncodingError> {
    let (width, height) = (pixels.width(), pixels.height());
    let colours = colours(pixels.data());
    let is_opaque = colours.is_some();
    let bytes = colours.unwrap_or_else(|| pixels.take_demultiplied());
    let mut file = Vec::new();
    let mut encoder = Encoder::new(&mut file, width, height);
    encoder.set_color(if is_opaque { ColorType::Rgb } else { ColorType::Rgba });
    encoder.set_depth(BitDepth::Eight);
    encoder.set_compression(Compression::Fast);
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&bytes)?;
    writer.finish()?;
    Ok(file)
}

/// Red, green and blue of pixels whose fourth byte lets nothing through; nothing where one does.
fn colours(pixels: &[u8]) -> Option<Vec<u8>> {
    let (pixels, _) = pixels.as_chunks::<4>();
    let least = pixels.iter().fold(u8::MAX, |least, [.., opacity]| least & opacity);
    let mut bytes = vec![0; pixels.len() * 3];
    let (colours, _) = bytes.as_chunks_mut::<3>();
    for (colour, [red, green, blue, _]) in colours.iter_mut().zip(pixels) {
        *colour = [*red, *green, *blue];
    }
    (least == u8::MAX).then_some(bytes)
}

/// An SVG as a tree whose text is set in the embedded fonts only.
///
/// # Errors
/// [`ChartError::Pixels`] when the SVG cannot be read.
pub fn picture_tree(svg: &str) -> Result<Tree, ChartError> {
    let options = Options {
        fontdb: Arc::clone(&EMBEDDED),
        font_family: fonts::FAMILY.to_string(),
        ..Options::default()
    };
    Tree::from_str(svg, &options).map_err(|e| ChartError::Pixels(e.to_string()))
}

// A test that cannot go on should stop.
#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::report::charts::canvas::{self, Align, Sheet, Type};
    use crate::report::charts::palette;
    use resvg::usvg::{Group, Node};

    fn width_of_words(group: &Group) -> f64 {
        let widths = group.children().iter().map(|node| match node {
            Node::Group(inner) => width_of_words(inner),
            Node::Text(words) => f64::from(words.abs_bounding_box().width()),
            _ => 0.0,
        });
        widths.fold(0.0, f64::max)
    }

    #[test]
    fn words_are_measured_as_wide_as_they_are_set() {
        // Independent: usvg 0.47, which shapes with kerning. Ours may be a little wider, never narrower.
        for (text, bold) in
            [("Heat pump and propane", false), ("Heat pump and propane", true), ("$10,000,000", true)]
        {
            let kind = Type { size: 20.0, bold, colour: palette::INK };
            let sheet = Sheet { width: 400.0, height: 40.0, title: "", description: "" };
            let svg = canvas::picture(&sheet, |c| c.words(text, (10.0, 30.0), Align::Left, &kind)).unwrap();
            let options = Options { fontdb: Arc::clone(&EMBEDDED), ..Options::default() };
            let tree = Tree::from_str(&svg, &options).unwrap();
            let set = width_of_words(tree.root());
            let ours = canvas::width(text, &kind).unwrap();
            assert!(ours >= set - 0.5 && ours <= set * 1.03, "{text}: measured {ours}, set {set}");
        }
    }

    #[test]
    fn what_cannot_be_made_into_pixels_is_refused() {
        let svg = "<svg xmlns='http://www.w3.org/2000/svg' width='10' height='10'/>";
        assert!(png(svg, 1.0).is_ok());
        for scale in [0.0, -1.0, f32::NAN, f32::INFINITY, 1e6] {
            assert!(matches!(png(svg, scale), Err(ChartError::Pixels(_))), "{scale}");
        }
        assert!(matches!(png("not an svg", 1.0), Err(ChartError::Pixels(_))));
    }
}
