//! Finished pages into one file.

use krilla::Document;
use krilla::annotation::{LinkAnnotation, Target};
use krilla::destination::{Destination, XyzDestination};
use krilla::geom::{Point, Rect as Area};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;

use super::PdfError;
use super::face::Faces;
use super::paint::{self, points};
use super::paper::Paper;
use crate::drawing::{Item, Rect};

/// One page, in millimetres from the left and top of the paper.
#[derive(Debug, Default)]
pub(super) struct Finished {
    /// From back to front.
    pub(super) items: Vec<Item>,
    /// An entry of the list of contents.
    pub(super) bookmark: Option<String>,
    /// Where a click leads to another page, by its place.
    pub(super) links: Vec<(Rect, usize)>,
}

/// The file; the same pages give the same bytes, for it holds no date.
pub(super) fn document(
    faces: &Faces,
    paper: Paper,
    title: String,
    pages: &[Finished],
) -> Result<Vec<u8>, PdfError> {
    let mut document = Document::new();
    document.set_metadata(
        Metadata::new().title(title).creator("Hosewright".to_owned()).language("en".to_owned()),
    );
    let mut outline = Outline::new();
    for (i, page) in pages.iter().enumerate() {
        add(&mut document, faces, paper, page)?;
        if let Some(words) = &page.bookmark {
            outline.push_child(OutlineNode::new(words.clone(), top_of(i)));
        }
    }
    document.set_outline(outline);
    document.finish().map_err(|error| PdfError::Library(format!("{error:?}")))
}

fn add(
    document: &mut Document,
    faces: &Faces,
    paper: Paper,
    page: &Finished,
) -> Result<(), PdfError> {
    let size = paper.size_mm();
    let settings = PageSettings::from_wh(points(size.x), points(size.y))
        .ok_or_else(|| PdfError::Library("no such size of page".to_owned()))?;
    let mut out = document.start_page_with(settings);
    for (from, to) in &page.links {
        if let Some(area) = area(*from) {
            let place = Target::Destination(Destination::Xyz(top_of(*to)));
            out.add_annotation(LinkAnnotation::new(area, place).into());
        }
    }
    let mut surface = out.surface();
    for item in &page.items {
        paint::item(&mut surface, faces, item);
    }
    surface.finish();
    out.finish();
    Ok(())
}

fn top_of(page: usize) -> XyzDestination {
    XyzDestination::new(page, Point::from_xy(0.0, 0.0))
}

fn area(rect: Rect) -> Option<Area> {
    let size = rect.size();
    Area::from_xywh(points(rect.min.x), points(rect.min.y), points(size.x), points(size.y))
}
