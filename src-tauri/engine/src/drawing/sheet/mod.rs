//! The printed sheets of a job: the staking map with its table, what goes under each leg, and templates at full size.

mod feet;
mod foot_template;
mod map_page;
mod pegs;
mod words;

use crate::job::Job;
use crate::plan::Computed;

use super::pages::flow::Drafts;
use super::pages::{About, Document, Paper};

/// What the sheets say of themselves, and on which paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Wanted {
    pub paper: Paper,
    pub about: About,
}

impl Wanted {
    /// On a paper, with nothing said of who made it and when.
    pub fn on(paper: Paper) -> Self {
        Self { paper, about: About::default() }
    }
}

/// Lays out the sheets of a job.
///
/// # References
/// ISO 5455 scales; ISO 128-2 lines; ISO 5457 sheet border (the last three from memory).
pub fn sheets(job: &Job, computed: &Computed, wanted: &Wanted) -> Document {
    let mut drafts = Drafts::default();
    let about = About { title: title(job, &wanted.about), ..wanted.about.clone() };
    map_page::draw(&mut drafts, job, computed, wanted);
    feet::draw(&mut drafts, job, computed, wanted);
    drafts.finish(about)
}

fn title(job: &Job, about: &About) -> String {
    if about.title.is_empty() { format!("{} – staking sheets", job.name) } else { about.title.clone() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::sample;
    use crate::quantity::UnitSystem;

    fn svg(job: &Job, computed: &Computed, paper: Paper) -> String {
        sheets(job, computed, &Wanted::on(paper)).svg().concat()
    }

    #[test]
    fn the_sheets_name_their_scale_and_every_peg() {
        let (job, computed) = sample(UnitSystem::Metric);
        let sheet = svg(&job, &computed, Paper::A4);
        assert!(sheet.contains("Scale 1:75"));
        for peg in &computed.plan.pegs {
            assert!(sheet.contains(&peg.name), "{}", peg.name);
        }
        assert!(sheet.contains("Power lines"));
        assert!(sheet.contains("STOP: 1 finding says not"));
    }

    #[test]
    fn hostile_names_stay_text() {
        let (mut job, computed) = sample(UnitSystem::Metric);
        job.name = "</text><script>alert(1)</script>".into();
        assert!(!svg(&job, &computed, Paper::Letter).contains("<script"));
    }

    #[test]
    fn look() {
        let Ok(folder) = std::env::var("DRAW_TO") else { return };
        for (name, system, paper) in
            [("metric", UnitSystem::Metric, Paper::A4), ("imperial", UnitSystem::Imperial, Paper::Letter)]
        {
            let (job, computed) = sample(system);
            for (i, page) in sheets(&job, &computed, &Wanted::on(paper)).svg().iter().enumerate() {
                std::fs::write(format!("{folder}/sheet-{name}-{}.svg", i + 1), page).unwrap();
            }
        }
    }
}
