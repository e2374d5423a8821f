//! Turns a chart's SVG into a PNG with the embedded fonts only, so that every machine gives the same bytes.
//!
//! Must not know which chart it is. Start at [`png`].

use std::sync::{Arc, LazyLock};

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
    let options =
        Options { fontdb: Arc::clone(&EMBEDDED), font_family: fonts::FAMILY.to_string(), ..Options::default() };
    let tree = Tree::from_str(svg, &options).map_err(|e| wrong(e.to_string()))?;
    let (width, height) = ((tree.size().width() * scale).ceil(), (tree.size().height() * scale).ceil());
    if !(scale > 0.0 && width <= MOST_PIXELS && height <= MOST_PIXELS) {
        return Err(wrong(format!("a scale of {scale} makes it {width} × {height} pixels")));
    }
    let mut pixels =
        Pixmap::new(width as u32, height as u32).ok_or_else(|| wrong("it has no size".to_string()))?;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
    pixels.encode_png().map_err(|e| wrong(e.to_string()))
}

#[cfg(test)]
mod tests {
    use super::*;

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
