//! Laid-out pages into a PDF: embedded subset fonts, selectable text, vector pictures, and tags that
//! tell a screen reader what is a heading, a list, a table or a picture.
//!
//! No date is written, so the same pages give the same bytes. Start at [`document`].

use super::blocks::Block;
use super::layout::lay_out;
use super::paper::Paper;
use super::pieces::{Ink, Page, Part, Piece};
use super::tags::Tags;
use super::typeset::{Face, Style};
use crate::problem::Problem;
use crate::report::charts::fonts;
use crate::report::charts::picture_tree;
use crate::report::logo::Form;
use krilla::color::rgb;
use krilla::geom::{PathBuilder, Point, Rect, Size, Transform};
use krilla::image::Image;
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, SpanTag};
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};
use krilla_svg::{SurfaceExt, SvgSettings};

/// Writes `blocks` as a PDF on `paper`; `foot` stands on every page beside its number.
///
/// # Errors
/// A picture or typeface that cannot be embedded; that would be a defect.
pub fn document(
    title: &str,
    author: &str,
    blocks: &[Block],
    foot: &str,
    paper: Paper,
) -> Result<Vec<u8>, Problem> {
    let pages = lay_out(blocks, foot, paper);
    let pen = Pen::new()?;
    let settings = SerializeSettings { enable_tagging: true, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    let mut tags = Tags::new(blocks);
    for page in &pages {
        pen.page(&mut document, page, paper, &mut tags)?;
    }
    let metadata = Metadata::new().title(title.into()).authors(vec![author.into()]).language("en".into());
    document.set_metadata(metadata.creator("winterledger".into()));
    document.set_tag_tree(tags.tree(blocks));
    document.finish().map_err(|e| Problem::new(format!("the PDF cannot be written: {e:?}")))
}

/// The two weights, as the PDF embeds them.
struct Pen {
    regular: Font,
    semi_bold: Font,
}

impl Pen {
    fn new() -> Result<Self, Problem> {
        let font = |bytes: &'static [u8]| Font::new(bytes.to_vec().into(), 0);
        let missing = || Problem::new("the embedded typeface cannot be read");
        Ok(Self {
            regular: font(fonts::REGULAR).ok_or_else(missing)?,
            semi_bold: font(fonts::SEMI_BOLD).ok_or_else(missing)?,
        })
    }

    fn page(
        &self,
        document: &mut Document,
        page: &Page,
        paper: Paper,
        tags: &mut Tags,
    ) -> Result<(), Problem> {
        let (width, height) = paper.size();
        let sheet = PageSettings::from_wh(width as f32, height as f32)
            .ok_or_else(|| Problem::new("a page without a size"))?;
        let mut sheet = document.start_page_with(sheet);
        let mut surface = sheet.surface();
        for piece in &page.pieces {
            let content = match (&piece.part, &piece.ink) {
                (Part::Decoration, _) => ContentTag::Artifact(Artifact::new(ArtifactType::Other, None)),
                (_, Ink::Words(..)) => ContentTag::Span(SpanTag::empty()),
                _ => ContentTag::Other,
            };
            let place = surface.start_tagged(content);
            self.piece(&mut surface, piece)?;
            surface.end_tagged();
            tags.add(piece.block, piece.part, place);
        }
        surface.finish();
        sheet.finish();
        Ok(())
    }

    fn piece(&self, surface: &mut Surface<'_>, piece: &Piece) -> Result<(), Problem> {
        match &piece.ink {
            Ink::Words(text, style) => self.words(surface, piece, text, style),
            Ink::Rule(colour) => rule(surface, piece, *colour),
            Ink::Picture(svg) => picture(surface, piece, svg)?,
            Ink::Logo(logo) => match &logo.form {
                Form::Svg(svg) => picture(surface, piece, svg)?,
                Form::Png(bytes) => pixels(surface, piece, bytes)?,
            },
        }
        Ok(())
    }

    fn words(&self, surface: &mut Surface<'_>, piece: &Piece, text: &str, style: &Style) {
        let glyphs: Vec<KrillaGlyph> = Face::of(style)
            .shape(text)
            .into_iter()
            .map(|g| {
                KrillaGlyph::new(GlyphId::new(g.glyph), g.advance, g.offset.0, g.offset.1, 0.0, g.text, None)
            })
            .collect();
        let font = if style.bold { &self.semi_bold } else { &self.regular };
        surface.set_fill(Some(fill(style.colour)));
        // Letters stand in the middle of their line.
        let baseline = piece.area.top + piece.area.height / 2.0 + 0.36 * style.size;
        let start = Point::from_xy(piece.area.left as f32, baseline as f32);
        surface.draw_glyphs(start, &glyphs, font.clone(), text, style.size as f32, false);
    }
}

fn fill([red, green, blue]: [u8; 3]) -> Fill {
    Fill {
        paint: rgb::Color::new(red, green, blue).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::default(),
    }
}

fn rule(surface: &mut Surface<'_>, piece: &Piece, colour: [u8; 3]) {
    let area = &piece.area;
    let rect = Rect::from_xywh(area.left as f32, area.top as f32, area.width as f32, area.height as f32);
    let mut path = PathBuilder::new();
    if let Some(rect) = rect {
        path.push_rect(rect);
    }
    if let Some(path) = path.finish() {
        surface.set_fill(Some(fill(colour)));
        surface.draw_path(&path);
    }
}

fn pixels(surface: &mut Surface<'_>, piece: &Piece, png: &[u8]) -> Result<(), Problem> {
    let image = Image::from_png(png.to_vec().into(), true);
    let image = image.map_err(|e| Problem::new(format!("the logo cannot be read: {e}")))?;
    let size = Size::from_wh(piece.area.width as f32, piece.area.height as f32);
    let size = size.ok_or_else(|| Problem::new("a logo without a size"))?;
    surface.push_transform(&Transform::from_translate(piece.area.left as f32, piece.area.top as f32));
    surface.draw_image(image, size);
    surface.pop();
    Ok(())
}

fn picture(surface: &mut Surface<'_>, piece: &Piece, svg: &str) -> Result<(), Problem> {
    let tree = picture_tree(svg).map_err(|e| Problem::new(format!("a chart cannot be read: {e}")))?;
    let size = Size::from_wh(piece.area.width as f32, piece.area.height as f32);
    let size = size.ok_or_else(|| Problem::new("a chart without a size"))?;
    surface.push_transform(&Transform::from_translate(piece.area.left as f32, piece.area.top as f32));
    surface.draw_svg(&tree, size, SvgSettings::default());
    surface.pop();
    Ok(())
}
