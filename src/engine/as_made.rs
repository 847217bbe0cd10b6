//! The finished assembly against what was calculated: what it says of the ends' set-back.

use super::{ResolvedEnd, RunSolution};
use crate::geom::sin_cos_deg;
use crate::model::{Mark, Run, RunEnd, Side};

/// A finished assembly beside what its cut length and set-backs come to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AsMade {
    /// To what the hose was cut.
    pub cut_mm: f64,
    /// From seat to seat along the hose laid straight, measured.
    pub final_mm: f64,
    /// From seat to seat by the cut and the set-backs in force.
    pub calculated_mm: f64,
}

impl AsMade {
    /// How much longer it is than calculated; negative where it is shorter.
    pub fn longer_mm(&self) -> f64 {
        self.final_mm - self.calculated_mm
    }
}

/// The finished assembly of a run; none where the cut or the finished length was not written down.
pub fn as_made(run: &Run, solved: &RunSolution) -> Option<AsMade> {
    let (cut_mm, final_mm) = (run.bench.cut_mm?, run.bench.final_mm?);
    let set_backs = solved.from.set_back_mm + solved.to.set_back_mm;
    Some(AsMade { cut_mm, final_mm, calculated_mm: cut_mm + set_backs })
}

/// The ends of a run with set-backs that agree with the finished assembly, as measured ones: what it is
/// longer goes to the ends that nobody measured, in equal parts, to both where both were. None where
/// there is nothing to correct, or an end would come out of it with less than nothing.
pub fn corrected_ends(run: &Run, solved: &RunSolution) -> Option<[RunEnd; 2]> {
    let longer_mm = as_made(run, solved)?.longer_mm();
    if longer_mm.abs() < crate::units::EPS_MM {
        return None;
    }
    let ends = [(Side::A, &solved.from.end), (Side::B, &solved.to.end)];
    let is_typical = ends.map(|(_, end)| end.along_source.mark != Mark::Measured);
    let takes = if is_typical.contains(&true) { is_typical } else { [true, true] };
    let share = longer_mm / f64::from(u8::from(takes[0]) + u8::from(takes[1]));
    let [a, b] = [0, 1].map(|k| {
        let (side, resolved) = ends[k];
        let end = run.end(side).clone();
        if takes[k] { corrected(end, resolved, share) } else { Some(end) }
    });
    Some([a?, b?])
}

/// An end whose set-back is larger by so much; its dimensions count as measured from then on.
fn corrected(end: RunEnd, resolved: &ResolvedEnd, by_mm: f64) -> Option<RunEnd> {
    let (sin, cos) = sin_cos_deg(resolved.angle_deg);
    let along_mm = resolved.along_mm + by_mm * cos;
    let across_mm = resolved.across_mm + by_mm * sin;
    let is_whole = across_mm >= 0.0 && (along_mm >= 0.0 || resolved.angle_deg > 90.0);
    is_whole.then_some(RunEnd {
        along_mm: Some(along_mm),
        across_mm: Some(across_mm),
        socket_mm: Some(resolved.socket_mm),
        ..end
    })
}
