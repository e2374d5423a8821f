//! Small changes of a job through its editor, so that every run is one that a person could type.
//!
//! Start at [`Change`] and [`changed`].

use crate::calendar::MonthDay;
use crate::job::{Job, ScenarioSection, edit, edit_list, path, reader};
use crate::problem::{Problem, Problems};
use std::ops::Range;

/// One change.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// A key gets a value, as `--set` takes them.
    Set {
        /// The key's path.
        key: String,
        /// The value, as TOML writes it or as a text.
        value: String,
    },
    /// A fuel's energy costs so many times as much: a spike more.
    Price {
        /// The fuel's id, as the job writes it.
        fuel: String,
        /// The factor, 0.1 to 20.
        times: f64,
        /// First and last day, both included.
        days: (MonthDay, MonthDay),
    },
}

/// What sets a key of a job's text to a value.
type Setter = fn(&str, &str, &str) -> Result<String, Problem>;

impl Change {
    /// A fuel's energy costs so many times as much all year.
    pub fn price(fuel: impl Into<String>, times: f64) -> Self {
        Self::Price { fuel: fuel.into(), times, days: (MonthDay::FIRST, MonthDay::LAST) }
    }

    /// The text of a job with this change; `name` is what a spike is called, `set` sets a key.
    fn applied(&self, text: &str, name: &str, set: Setter) -> Result<String, Problem> {
        let (fuel, times, (first, last)) = match self {
            Self::Set { key, value } => return set(text, key, value),
            Self::Price { fuel, times, days } => (fuel, times, days),
        };
        let day = |day: &MonthDay| format!("\"{:02}-{:02}\"", day.month, day.day);
        let keys = [
            ("name", edit::text_literal(name)),
            ("from", day(first)),
            ("to", day(last)),
            // Debug writes the shortest digits that read back as the same number, with a point.
            ("times", format!("{times:?}")),
        ];
        edit_list::add(text, &path::join(&path::join("prices", fuel), "spike"), &keys)
    }
}

/// A job with changes, under a name of its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Scenario {
    /// What it is called.
    pub name: String,
    /// What it changes, in order.
    pub changes: Vec<Change>,
}

impl Scenario {
    /// What a `[[scenario]]` changes: prices first, then keys.
    pub fn of_section(section: &ScenarioSection) -> Self {
        let prices = section.price.iter().map(|price| Change::Price {
            fuel: price.fuel.value.clone(),
            times: price.times.value,
            days: price.days.unwrap_or((MonthDay::FIRST, MonthDay::LAST)),
        });
        let set = section.set.iter().filter_map(|entry| ScenarioSection::key_and_value(entry));
        let set = set.map(|(key, value)| Change::Set { key: key.to_owned(), value: value.to_owned() });
        Self { name: section.name.value.clone(), changes: prices.chain(set).collect() }
    }

    /// Does something with the job as changed.
    ///
    /// # Errors
    /// A key that cannot be set, everything the changed job can be refused for, and what `run` is
    /// refused; all are told at the job's own `[[scenario]]` of that name, since lines of the changed
    /// job are nobody's.
    pub fn with<T>(&self, job: &Job, run: impl FnOnce(&Job) -> Result<T, Problems>) -> Result<T, Problems> {
        changed(job, &self.name, &self.changes).and_then(|changed| run(&changed)).map_err(|problems| {
            let section = job.scenarios.iter().find(|section| section.name.value == self.name);
            let span = section.map_or(0..0, |section| section.name.span.clone());
            problems
                .into_iter()
                .map(|problem| self.told(job, (&span, "scenario", "scenario"), problem))
                .collect()
        })
    }

    /// The same of a `[[vary]]` of that name.
    ///
    /// # Errors
    /// As [`Self::with`], told at the job's own `[[vary]]`.
    pub fn of_vary<T>(
        &self,
        job: &Job,
        run: impl FnOnce(&Job) -> Result<T, Problems>,
    ) -> Result<T, Problems> {
        changed(job, &self.name, &self.changes).and_then(|changed| run(&changed)).map_err(|problems| {
            let section = job.vary.iter().find(|section| section.name.value == self.name);
            let span = section.map_or(0..0, |section| section.name.span.clone());
            problems.into_iter().map(|problem| self.told(job, (&span, "vary", "value"), problem)).collect()
        })
    }

    fn told(&self, job: &Job, at: (&Range<usize>, &str, &str), found: Problem) -> Problem {
        let (span, table, word) = at;
        let what = match &found.key {
            Some(key) => format!("with this {word}, {key}: {}", found.what),
            None => format!("with this {word}, {}", found.what),
        };
        let told = job.problem(span, path::join(table, &self.name), what);
        Problem { allowed: found.allowed, help: found.help, ..told }
    }
}

/// `job` with changes; a spike that a change adds is called `name`.
///
/// # Errors
/// A key that cannot be set, and everything a job can be refused for.
pub fn changed(job: &Job, name: &str, changes: &[Change]) -> Result<Job, Problems> {
    let text = |set: Setter| {
        changes.iter().try_fold(job.text.clone(), |text, change| change.applied(&text, name, set))
    };
    // Reading the new text shows whether all fits; only where it does not, it is asked which change does not.
    if let Ok(text) = text(edit::set_unread)
        && let Ok(changed) = reader::read(&job.file, text)
    {
        return Ok(changed);
    }
    reader::read(&job.file, text(edit::set).map_err(|problem| vec![problem])?)
}
