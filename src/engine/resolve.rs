//! From ids to figures: the bay's stock first, then the built-in catalogue, then what was measured.

use crate::model::{Bay, EndKind, EndSize, HoseKind, HoseSize, Mark, Run, Side, Source, catalogue};

/// A reference of a run that leads nowhere.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Missing {
    /// No port of this id.
    #[error("end {}: there is no port \"{id}\"", side.letter())]
    Port {
        /// On which end.
        side: Side,
        /// The id asked for.
        id: String,
    },
    /// No hose of this id, in the stock or the catalogue.
    #[error("there is no hose \"{id}\", neither in this bay's stock nor in the catalogue")]
    Hose {
        /// The id asked for.
        id: String,
    },
    /// The hose does not come in this size.
    #[error("hose \"{id}\" has no size \u{2212}{dash}")]
    HoseSize {
        /// The hose.
        id: String,
        /// The size asked for.
        dash: u32,
    },
    /// No end of this id, in the stock or the catalogue.
    #[error(
        "end {}: there is no end fitting \"{id}\", neither in this bay's stock nor in the catalogue",
        side.letter()
    )]
    End {
        /// On which end.
        side: Side,
        /// The id asked for.
        id: String,
    },
    /// The end does not come in this size and angle, and it is not measured whole.
    #[error(
        "end {}: end fitting \"{id}\" has no size \u{2212}{dash} at {angle_deg}\u{b0}; choose another, or measure yours and give along, across and socket",
        side.letter()
    )]
    EndSize {
        /// On which end.
        side: Side,
        /// The end fitting.
        id: String,
        /// The size asked for.
        dash: u32,
        /// The angle asked for.
        angle_deg: f64,
    },
    /// No end named, and not all three dimensions measured.
    #[error(
        "end {}: no end fitting is named; name one, or measure yours and give along, across and socket",
        side.letter()
    )]
    EndNotNamed {
        /// On which end.
        side: Side,
    },
}

/// Shortening under pressure where the hose gives none (contract §4; +2 % to −4 %, FAA AC 43.13-1B
/// fig. 9-9, published).
const GENERAL_SHORTENING_PCT: f64 = 4.0;

/// A hose's figures in force for one run.
#[derive(Debug, Clone, PartialEq)]
pub struct ResolvedHose {
    /// Outside diameter. Where it is not known, the bore: the least it can be.
    pub outside_mm: f64,
    /// Whether the outside diameter is known.
    pub outside_is_known: bool,
    /// Where it comes from.
    pub outside_source: Source,
    /// Least radius of the centre line (contract §3).
    pub radius_limit_mm: f64,
    /// Where that comes from: of what it is made of, what is least sure.
    pub radius_limit_source: Source,
    /// Worst shortening at the service pressure, per cent, not negative.
    pub shortening_pct: f64,
    /// How that was found.
    pub shortening: Shortening,
}

/// How much a hose gets shorter in service. A catalogue's figure is that at its rated pressure: length
/// change is measured at the greatest working pressure (MIL-DTL-8788F, published; ISO 6605, from memory).
/// It is taken to grow evenly with the pressure (calculated).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shortening {
    /// At the rated pressure, per cent.
    pub rated_pct: f64,
    /// Service and rated pressure, bar; none where one of them is not given and the figure counts in full.
    pub scaled: Option<[f64; 2]>,
}

impl Shortening {
    fn of(rated_pct: f64, service_bar: Option<f64>, rated_bar: Option<f64>) -> Self {
        let scaled = match (service_bar, rated_bar.filter(|bar| *bar > 0.0)) {
            (Some(service), _) if service <= 0.0 => Some([service, rated_bar.unwrap_or_default()]),
            (Some(service), Some(rated)) => Some([service, rated]),
            _ => None,
        };
        Self { rated_pct, scaled }
    }

    fn in_force_pct(&self) -> f64 {
        match self.scaled {
            Some([service, _]) if service <= 0.0 => 0.0,
            Some([service, rated]) => self.rated_pct * service / rated,
            None => self.rated_pct,
        }
    }
}

/// An end fitting's dimensions in force for one run, and where each is from.
#[derive(Debug, Clone, PartialEq)]
pub struct ResolvedEnd {
    /// 0 straight … 180.
    pub angle_deg: f64,
    /// Seat to cut end along the port's axis.
    pub along_mm: f64,
    /// Seat to cut end across the port's axis.
    pub across_mm: f64,
    /// Hose gripped in the socket.
    pub socket_mm: f64,
    /// Where `along_mm` comes from.
    pub along_source: Source,
    /// Where `across_mm` comes from.
    pub across_source: Source,
    /// Where `socket_mm` comes from.
    pub socket_source: Source,
}

impl ResolvedEnd {
    /// Set-back along the hose axis (contract §2).
    pub fn set_back_mm(&self) -> f64 {
        let (sin, cos) = crate::geom::sin_cos_deg(self.angle_deg);
        self.along_mm * cos + self.across_mm * sin
    }

    /// Of the dimensions that the set-back is made of, the source that is least sure.
    pub fn set_back_source(&self) -> &Source {
        let (sin, cos) = crate::geom::sin_cos_deg(self.angle_deg);
        let across_is_less_sure = self.across_source.mark > self.along_source.mark;
        if sin != 0.0 && (cos == 0.0 || across_is_less_sure) {
            &self.across_source
        } else {
            &self.along_source
        }
    }

    /// Whether one of its figures is to be measured before it is built on: an elbow's is trusted only
    /// where it was, a straight end's where its table is not a typical proportion.
    pub fn is_doubtful(&self, source: &Source) -> bool {
        if self.is_elbow() { source.mark != Mark::Measured } else { source.mark == Mark::Typical }
    }

    /// Whether it is an elbow.
    pub fn is_elbow(&self) -> bool {
        self.angle_deg > 0.0
    }
}

/// The hose kind of this id: the bay's own, else the catalogue's.
pub fn hose_kind<'a>(bay: &'a Bay, id: &str) -> Option<&'a HoseKind> {
    bay.stock.hoses.iter().find(|h| h.id == id).or_else(|| catalogue::hose(id))
}

/// The end kind of this id: the bay's own, else the catalogue's.
pub fn end_kind<'a>(bay: &'a Bay, id: &str) -> Option<&'a EndKind> {
    bay.stock.ends.iter().find(|e| e.id == id).or_else(|| catalogue::end(id))
}

/// The hose of a run, as its kind and size.
///
/// # Errors
/// [`Missing::Hose`] or [`Missing::HoseSize`].
pub fn hose_of<'a>(bay: &'a Bay, run: &Run) -> Result<(&'a HoseKind, &'a HoseSize), Missing> {
    let kind = hose_kind(bay, &run.hose).ok_or_else(|| Missing::Hose { id: run.hose.clone() })?;
    let size = kind
        .size(run.dash)
        .ok_or_else(|| Missing::HoseSize { id: run.hose.clone(), dash: run.dash })?;
    Ok((kind, size))
}

/// The hose's figures in force for a run.
///
/// # Errors
/// [`Missing::Hose`] or [`Missing::HoseSize`].
pub fn resolve_hose(bay: &Bay, run: &Run) -> Result<ResolvedHose, Missing> {
    let (kind, size) = hose_of(bay, run)?;
    let (outside_mm, outside_is_known, outside_source) = match (run.outside_mm, size.outside_mm) {
        (Some(measured), _) => (measured, true, Source::fixed(Mark::Measured, "")),
        (None, Some(outside)) => (outside, true, kind.sources.outside.clone()),
        (None, None) => (size.bore_mm.unwrap_or(0.0), false, kind.sources.outside.clone()),
    };
    let is_to_centre = kind.bend_to_centre.unwrap_or(false);
    let to_axis = if is_to_centre { 0.0 } else { outside_mm / 2.0 };
    // A bore that stands in makes the limit too small: a miss of that is sure.
    let rests_on_outside = !is_to_centre && outside_is_known && outside_source.mark.is_doubtful();
    let bend_radius = &kind.sources.bend_radius;
    let radius_limit_source = if rests_on_outside && !bend_radius.mark.is_doubtful() {
        outside_source.clone()
    } else {
        bend_radius.clone()
    };
    let rated_pct =
        kind.length_change_pct.map_or(GENERAL_SHORTENING_PCT, |[shortest, _]| (-shortest).max(0.0));
    let shortening = Shortening::of(rated_pct, run.service.pressure_bar, size.max_pressure_bar);
    Ok(ResolvedHose {
        outside_mm,
        outside_is_known,
        outside_source,
        radius_limit_mm: size.bend_radius_mm + to_axis,
        radius_limit_source,
        shortening_pct: shortening.in_force_pct(),
        shortening,
    })
}

/// Where the figures of an end come from that its owner measured on the ends in stock.
fn measured_in_stock(size: &EndSize) -> Option<Source> {
    (size.measured == Some(true)).then(|| Source::measured_on(&size.measured_on))
}

/// The end fitting's dimensions in force on one side of a run.
///
/// # Errors
/// [`Missing::End`], [`Missing::EndSize`] or [`Missing::EndNotNamed`].
pub fn resolve_end(bay: &Bay, run: &Run, side: Side) -> Result<ResolvedEnd, Missing> {
    let end = run.end(side);
    let kind = match &end.end {
        Some(id) => Some(end_kind(bay, id).ok_or_else(|| Missing::End { side, id: id.clone() })?),
        None => None,
    };
    if let (Some(along_mm), Some(across_mm), Some(socket_mm)) =
        (end.along_mm, end.across_mm, end.socket_mm)
    {
        let measured = Source::fixed(Mark::Measured, "");
        return Ok(ResolvedEnd {
            angle_deg: end.angle_deg,
            along_mm,
            across_mm,
            socket_mm,
            along_source: measured.clone(),
            across_source: measured.clone(),
            socket_source: measured,
        });
    }
    let kind = kind.ok_or(Missing::EndNotNamed { side })?;
    let size = kind.size(run.dash, end.angle_deg).ok_or_else(|| Missing::EndSize {
        side,
        id: kind.id.clone(),
        dash: run.dash,
        angle_deg: end.angle_deg,
    })?;
    let on_stock = measured_in_stock(size);
    let listed = if end.angle_deg > 0.0 { &kind.source_elbow } else { &kind.source_straight };
    let listed = on_stock.as_ref().unwrap_or(listed);
    let listed_socket = on_stock.as_ref().unwrap_or(&kind.source_socket);
    let figure = |measured: Option<f64>, from_table: f64, source: &Source| match measured {
        Some(value) => (value, Source::fixed(Mark::Measured, "")),
        None => (from_table, source.clone()),
    };
    let (along_mm, along_source) = figure(end.along_mm, size.along_mm, listed);
    let (across_mm, across_source) = figure(end.across_mm, size.across_mm, listed);
    let (socket_mm, socket_source) = figure(end.socket_mm, size.socket_mm, listed_socket);
    Ok(ResolvedEnd {
        angle_deg: end.angle_deg,
        along_mm,
        across_mm,
        socket_mm,
        along_source,
        across_source,
        socket_source,
    })
}
