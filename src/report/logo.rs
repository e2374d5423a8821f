//! A contractor's logo, PNG or SVG, checked before anything is printed with it.
//!
//! Start at [`Logo::read`].

use super::charts::picture_tree;
use crate::problem::Problem;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use resvg::tiny_skia::Pixmap;

/// A larger file is no logo, bytes.
pub const LARGEST: u64 = 1 << 20;

/// A logo that can be printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Logo {
    /// What it is made of.
    pub form: Form,
    /// Width over height, above 0.
    pub aspect: f64,
}

/// What a logo is made of.
#[derive(Debug, Clone, PartialEq)]
pub enum Form {
    /// Pixels, as a PNG file.
    Png(Vec<u8>),
    /// Shapes, as SVG text.
    Svg(String),
}

impl Logo {
    /// Reads a file's bytes.
    ///
    /// # Errors
    /// What is neither a PNG nor an SVG, or is damaged, with the way out.
    pub fn read(bytes: Vec<u8>) -> Result<Self, Problem> {
        let (form, (width, height)) = match bytes.starts_with(b"\x89PNG") {
            true => {
                let pixels = Pixmap::decode_png(&bytes)
                    .map_err(|e| Problem::new(format!("the logo is a damaged PNG: {e}")).help(WAY_OUT))?;
                (Form::Png(bytes), (f64::from(pixels.width()), f64::from(pixels.height())))
            }
            false => {
                let no_svg = || Problem::new("the logo is neither a PNG nor an SVG").help(WAY_OUT);
                let text = String::from_utf8(bytes).map_err(|_| no_svg())?;
                if !text.contains("<svg") {
                    return Err(no_svg());
                }
                let tree = picture_tree(&text);
                let tree =
                    tree.map_err(|e| Problem::new(format!("the logo is a damaged SVG: {e}")).help(WAY_OUT))?;
                let size = (f64::from(tree.size().width()), f64::from(tree.size().height()));
                (Form::Svg(text), size)
            }
        };
        Ok(Self { form, aspect: width / height })
    }

    /// The file as an address that a page can hold within itself.
    pub fn address(&self) -> String {
        match &self.form {
            Form::Png(bytes) => format!("data:image/png;base64,{}", STANDARD.encode(bytes)),
            Form::Svg(text) => format!("data:image/svg+xml;base64,{}", STANDARD.encode(text)),
        }
    }
}

const WAY_OUT: &str = "Save it anew as a PNG or an SVG of at most 1 MB, or take job.logo out";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_cannot_be_printed_is_refused_in_words() {
        let told = |bytes: &[u8]| Logo::read(bytes.to_vec()).map(|_| ()).map_err(|p| p.what);
        assert_eq!(told(b"GIF89a"), Err("the logo is neither a PNG nor an SVG".into()));
        assert!(
            told(b"\x89PNG\r\n\x1a\nrest").is_err_and(|what| what.starts_with("the logo is a damaged PNG"))
        );
        assert!(told(b"<svg width='1'").is_err_and(|what| what.starts_with("the logo is a damaged SVG")));
    }

    #[test]
    fn a_logo_keeps_its_shape() {
        let svg = b"<svg xmlns='http://www.w3.org/2000/svg' width='30' height='10'/>".to_vec();
        assert!(Logo::read(svg).is_ok_and(|logo| (logo.aspect - 3.0).abs() < 1e-9));
    }
}
