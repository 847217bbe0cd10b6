//! The two embedded faces, and how wide words come out in them.

use krilla::text::{Font, GlyphId, KrillaGlyph};

use super::PdfError;

/// Licence of both: `src/fonts/LICENSE`.
const REGULAR: &[u8] = include_bytes!("../../fonts/DejaVuSans.ttf");
const BOLD: &[u8] = include_bytes!("../../fonts/DejaVuSans-Bold.ttf");

/// Characters from the start of Unicode whose glyphs are looked up once.
const READY: u32 = 0x250;

/// One face.
pub(super) struct Face {
    pub(super) font: Font,
    outline: ttf_parser::Face<'static>,
    /// Glyph and width of the first characters.
    ready: Vec<(u16, f64)>,
}

/// Both faces.
pub(super) struct Faces {
    regular: Face,
    bold: Face,
}

impl Faces {
    pub(super) fn new() -> Result<Self, PdfError> {
        Ok(Self { regular: Face::new(REGULAR)?, bold: Face::new(BOLD)? })
    }

    pub(super) fn of(&self, is_bold: bool) -> &Face {
        if is_bold { &self.bold } else { &self.regular }
    }
}

impl Face {
    fn new(data: &'static [u8]) -> Result<Self, PdfError> {
        let font = Font::new(data.into(), 0).ok_or(PdfError::Font)?;
        let outline = ttf_parser::Face::parse(data, 0).map_err(|_| PdfError::Font)?;
        let ready = (0..READY)
            .map(|code| char::from_u32(code).map_or((0, 0.0), |c| look_up(&outline, c)))
            .collect();
        Ok(Self { font, outline, ready })
    }

    /// Glyph and width against the size of the type.
    fn glyph(&self, c: char) -> (u16, f64) {
        let ready = self.ready.get(u32::from(c) as usize);
        ready.copied().unwrap_or_else(|| look_up(&self.outline, c))
    }

    /// How wide words come out, mm.
    pub(super) fn width_mm(&self, text: &str, size_mm: f64) -> f64 {
        text.chars().map(|c| self.glyph(c).1).sum::<f64>() * size_mm
    }

    /// The glyphs of words that stand one after the other as typed; none where their script asks
    /// for more (letters that join, marks above others, right to left).
    pub(super) fn glyphs(&self, text: &str) -> Option<Vec<KrillaGlyph>> {
        if text.chars().any(needs_shaping) {
            return None;
        }
        let glyphs = text.char_indices().map(|(at, c)| {
            let (glyph, width) = self.glyph(c);
            let range = at..at + c.len_utf8();
            let id = GlyphId::new(u32::from(glyph));
            KrillaGlyph::new(id, width as f32, 0.0, 0.0, 0.0, range, None)
        });
        Some(glyphs.collect())
    }
}

fn look_up(outline: &ttf_parser::Face<'_>, c: char) -> (u16, f64) {
    let id = outline.glyph_index(c).unwrap_or_default();
    let advance = outline.glyph_hor_advance(id).unwrap_or_default();
    (id.0, f64::from(advance) / f64::from(outline.units_per_em()))
}

/// Latin, Greek, Cyrillic, punctuation and signs need none.
pub(super) fn needs_shaping(c: char) -> bool {
    let code = u32::from(c);
    (0x300..0x370).contains(&code) || (0x530..0x1e00).contains(&code) || code >= 0x2c00
}
