//! Taking in files: photos and outlines go under a view, meshes become obstacles.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use eframe::egui::Context;
use glam::{DVec2, dvec2};

use super::question::Question;
use super::store::{Content, Kind, kind_of};
use super::{Desk, known};
use crate::app::actions::Act;
use crate::app::canvas::camera::View;
use crate::app::canvas::thing::Thing;
use crate::app::work::Work;
use crate::document::file::{OutlineDrawing, left_out_text};
use crate::document::{Command, fresh_id};
use crate::model::{self, Background, Extra, Mesh, Nature, Obstacle, Plane, Shape};
use crate::units::{Length, is_plain, shown_name};

/// A file that is being read to be taken in.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Coming {
    path: PathBuf,
    kind: Kind,
    plane: Plane,
    /// Where its middle goes, mm in the plane; the middle of the view where absent.
    at: Option<DVec2>,
}

/// How strongly a new one is drawn: what is drawn over it stands out.
const OPACITY: f64 = 0.6;
/// The share of the view that a new photo takes.
const SHARE: f64 = 0.8;

/// What a file is, by the ending of its name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sort {
    Bay,
    Known(Kind),
    Other,
}

fn sort_of(path: &Path) -> Sort {
    let ending = path.extension().unwrap_or_default().to_string_lossy().to_lowercase();
    match ending.as_str() {
        "json" => Sort::Bay,
        "jpg" | "jpeg" | "png" => Sort::Known(Kind::Photo),
        "dxf" => Sort::Known(Kind::Outline),
        "stl" => Sort::Known(Kind::Mesh),
        _ => Sort::Other,
    }
}

/// Whether it is a bay, to be opened and not taken in.
pub(in crate::app) fn is_bay(path: &Path) -> bool {
    sort_of(path) == Sort::Bay
}

fn file_name(path: &Path) -> String {
    shown_name(path)
}

fn stem(path: &Path) -> String {
    path.file_stem()
        .unwrap_or_default()
        .to_string_lossy()
        .chars()
        .filter(|c| is_plain(*c))
        .collect()
}

impl Desk {
    /// A photo, an outline or a mesh, selected by the user.
    pub(in crate::app) fn take(
        &mut self,
        work: &mut Work,
        path: PathBuf,
        on: Option<(View, DVec2)>,
    ) {
        let Sort::Known(kind) = sort_of(&path) else {
            let name = file_name(&path);
            let lines = vec![
                "Photos are read from JPEG and PNG, outlines from DXF, meshes from STL".to_owned(),
                "Save it as one of these in the program that made it".to_owned(),
            ];
            work.trouble(format!("{name} cannot go under a view"), lines);
            return;
        };
        let (view, at) = on.map_or((work.canvas.active, None), |(view, at)| (view, Some(at)));
        // It may have been looked for in vain before.
        self.store.forget(&path);
        self.coming.push(Coming { path, kind, plane: view.plane(), at });
    }

    /// Another file for a background, of the same kind; how it lies stays.
    pub(in crate::app) fn instead(&mut self, work: &mut Work, id: &str, path: &Path) {
        let Some(background) = work.background(id) else { return };
        let kind = kind_of(&background);
        if sort_of(path) != Sort::Known(kind) {
            let line = match kind {
                Kind::Photo => "Replace a photo by another photo: JPEG or PNG",
                Kind::Outline | Kind::Mesh => "Replace an outline by another outline: DXF",
            };
            let lines = vec![line.to_owned(), "Add other files by themselves".into()];
            work.trouble(format!("{} is of another kind", file_name(path)), lines);
            return;
        }
        // It may have been looked for in vain before.
        self.store.forget(path);
        let to = Box::new(Background { file: work.stored_name(path), ..background });
        self.act(work, Act::Set { id: id.to_owned(), to, label: "Choose another file" });
    }

    /// Takes in what has been read.
    pub(super) fn take_in(&mut self, work: &mut Work, ctx: &Context) {
        for coming in std::mem::take(&mut self.coming) {
            self.store.want(ctx, &coming.path, coming.kind);
            match self.store.get(&coming.path, coming.kind) {
                None | Some(Content::Loading) => self.coming.push(coming),
                Some(Content::Photo(picture)) => {
                    let size = picture.size_px.map(f64::from);
                    self.lay_photo(work, &coming, DVec2::from(size));
                }
                Some(Content::Outline(outline)) => {
                    let outline = Arc::clone(outline);
                    self.lay_outline(work, &coming, &outline);
                }
                Some(Content::Mesh(mesh)) => {
                    let mesh = Arc::clone(mesh);
                    self.question = Some(Question::MeshUnit { path: coming.path, mesh });
                }
                Some(Content::Missing(unread)) => {
                    let why = unread.why.clone();
                    self.store.forget(&coming.path);
                    let name = file_name(&coming.path);
                    work.trouble(format!("{name} cannot be read"), vec![why]);
                }
            }
        }
    }

    fn lay_photo(&mut self, work: &mut Work, coming: &Coming, size_px: DVec2) {
        let (middle, room) = work.in_view(coming.plane);
        let mm_per_pixel = (room * SHARE / size_px).min_element();
        let half = dvec2(size_px.x, -size_px.y) * mm_per_pixel / 2.0;
        let content = model::Content::Photo { size_px, mm_per_pixel };
        self.lay(work, coming, coming.at.unwrap_or(middle) - half, content);
        work.say(format!(
            "{} is under the {} view; next, set its scale{}",
            file_name(&coming.path),
            coming.plane.word(),
            work.of_its_path()
        ));
    }

    fn lay_outline(&mut self, work: &mut Work, coming: &Coming, outline: &OutlineDrawing) {
        let scale = outline.mm_per_unit.unwrap_or(1.0);
        let (middle, room) = work.in_view(coming.plane);
        let (lo, hi) = outline.bounds().unwrap_or_default();
        let (lo, hi) = (lo * scale, hi * scale);
        // Drawn in the vehicle's own coordinates it stays there; out of sight it is brought in.
        let seen = lo.cmple(middle + room / 2.0).all() && hi.cmpge(middle - room / 2.0).all();
        let origin = if seen { DVec2::ZERO } else { middle - (lo + hi) / 2.0 };
        self.lay(work, coming, origin, model::Content::Outline { scale });
        let unit = match outline.mm_per_unit {
            Some(mm) => {
                let unit = work.document.as_ref().map(|document| document.bay().show_units);
                let shown = Length::from_mm(mm).show_significant(unit.unwrap_or_default(), 4);
                format!("one unit is {shown}, as the file says")
            }
            None => "taken for millimetres: the file does not name its unit".to_owned(),
        };
        let left_out = left_out_text(&outline.left_out).map(|told| format!("; {told}"));
        work.say(format!(
            "{} is under the {} view: {unit}{}",
            file_name(&coming.path),
            coming.plane.word(),
            left_out.unwrap_or_default()
        ));
    }

    fn lay(&mut self, work: &mut Work, coming: &Coming, origin: DVec2, content: model::Content) {
        let Some(bay) = work.bay() else { return };
        let id = fresh_id(&stem(&coming.path), |id| known(bay).any(|other| other.id == id));
        let background = Background {
            id: id.clone(),
            name: String::new(),
            plane: coming.plane,
            file: work.stored_name(&coming.path),
            opacity: OPACITY,
            locked: false,
            hidden: false,
            origin,
            rotation_deg: 0.0,
            content,
            extra: Extra::new(),
        };
        work.apply(&Command::AddBackground(Box::new(background)));
        self.selected = Some(id);
        work.photos = true;
    }

    pub(super) fn answer_mesh_unit(&mut self, work: &mut Work, scale: f64) {
        let Some(Question::MeshUnit { path, mesh }) = self.question.take() else { return };
        let Some(document) = &work.document else { return };
        let file = work.stored_name(&path);
        if document.path().is_some() && Path::new(&file).is_absolute() {
            let why = "It is on another drive than the bay: copy it beside the bay first";
            work.trouble(format!("{} cannot be used", file_name(&path)), vec![why.to_owned()]);
            return;
        }
        let name = stem(&path);
        let id = fresh_id(&name, |id| document.bay().obstacle(id).is_some());
        let at = glam::DVec3::ZERO;
        let mesh = Arc::new(Mesh::clone(&mesh).placed(scale, at));
        let obstacle = Obstacle {
            id: id.clone(),
            name,
            nature: Nature::Plain,
            min_clearance_mm: None,
            group: None,
            shape: Shape::Mesh { file, scale, at, mesh },
            locked: None,
            extra: Extra::new(),
        };
        work.apply(&Command::AddObstacle(Box::new(obstacle)));
        work.select_thing(Thing::Obstacle(id.clone()));
        work.selected.select_fresh(vec![Thing::Obstacle(id)]);
        self.store.forget(&path);
        work.say(format!("{} is an obstacle now{}", file_name(&path), work.of_its_path()));
    }
}

impl Work {
    /// The middle of what a view shows, and how much it shows, mm.
    fn in_view(&self, plane: Plane) -> (DVec2, DVec2) {
        let view = View::of(plane);
        let (area, camera) = (self.canvas.areas[view.index()], self.canvas.cameras.of(view));
        (camera.centre, (area.size() / camera.points_per_mm).max(DVec2::ONE))
    }

    /// What becomes of the path, where that is not plain.
    fn of_its_path(&self) -> &'static str {
        match self.document.as_ref().and_then(|d| d.path()) {
            Some(_) => "",
            None => ". The bay has no file yet: on saving, the path is stored relative to it",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_told_by_their_ending_in_any_case() {
        let sort = |name: &str| sort_of(Path::new(name));
        assert_eq!(sort("a/IMG_1.JPG"), Sort::Known(Kind::Photo));
        assert_eq!(sort("frame.dxf"), Sort::Known(Kind::Outline));
        assert_eq!(sort("part.Stl"), Sort::Known(Kind::Mesh));
        assert_eq!(sort("car.bay.json"), Sort::Bay);
        assert_eq!(sort("photo.heic"), Sort::Other);
        assert_eq!(sort("photo"), Sort::Other);
    }
}
