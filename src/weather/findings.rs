//! What is wrong with one file, gathered while it is read and cut to a list that can be read.
//!
//! Must never know any layout. Start at [`Findings`].

use crate::problem::{Problem, Problems};

const MOST_TOLD: usize = 20;
/// Of the same kind: who has seen three knows the fourth.
const MOST_ALIKE: usize = 3;
const MOST_CHARS: usize = 40;

/// The problems of one file, each given the file's name.
#[derive(Debug)]
pub(super) struct Findings {
    file: String,
    told: Problems,
    /// Each kind with how many were told and where the last of them stands.
    kinds: Vec<(Kind, usize, usize)>,
    untold: usize,
}

/// What problems of one kind share: all but the place and, between quotation marks, the text that was found.
#[derive(Debug)]
struct Kind {
    what: String,
    key: Option<String>,
    allowed: Option<String>,
    help: Option<String>,
}

impl Kind {
    fn of(problem: &Problem) -> Self {
        let Problem { what, key, allowed, help, .. } = problem.clone();
        Self { what, key, allowed, help }
    }

    /// Whether a problem is of this kind; files have very many, so that nothing is copied here.
    fn holds(&self, problem: &Problem) -> bool {
        self.key == problem.key
            && self.allowed == problem.allowed
            && self.help == problem.help
            && self.what.split('\'').step_by(2).eq(problem.what.split('\'').step_by(2))
    }
}

impl Findings {
    /// An empty list for the file of that name.
    pub(super) fn new(file: &str) -> Self {
        Self { file: file.to_owned(), told: Vec::new(), kinds: Vec::new(), untold: 0 }
    }

    /// Another empty list for the same file.
    pub(super) fn another(&self) -> Self {
        Self::new(&self.file)
    }

    /// The file's name.
    pub(super) fn file(&self) -> &str {
        &self.file
    }

    /// Adds one, of this file unless it names another; of one kind the first three are told, of all the first
    /// twenty, and the others are counted.
    pub(super) fn add(&mut self, problem: Problem) {
        let last = self.told.len();
        let alike = match self.kinds.iter_mut().find(|(kind, ..)| kind.holds(&problem)) {
            Some((_, told, last)) if *told == MOST_ALIKE => self.told.get_mut(*last),
            Some((_, told, at)) if last < MOST_TOLD => {
                (*told, *at) = (*told + 1, last);
                None
            }
            Some((_, _, last)) => self.told.get_mut(*last),
            None if last < MOST_TOLD => {
                self.kinds.push((Kind::of(&problem), 1, last));
                None
            }
            None => {
                self.untold += 1 + problem.more;
                return;
            }
        };
        match alike {
            Some(told) => told.more += 1 + problem.more,
            None => {
                let file = problem.file.clone().unwrap_or_else(|| self.file.clone());
                self.told.push(problem.in_file(file));
            }
        }
    }

    /// Takes what another list holds.
    pub(super) fn take(&mut self, other: &mut Self) {
        if other.told.is_empty() {
            return;
        }
        other.kinds.clear();
        std::mem::take(&mut other.told).into_iter().for_each(|problem| self.add(problem));
        self.untold += std::mem::take(&mut other.untold);
    }

    /// Nothing if nothing was found.
    ///
    /// # Errors
    /// The list, with the number of those left out.
    pub(super) fn check(&mut self) -> Result<(), Problems> {
        if self.told.is_empty() {
            return Ok(());
        }
        let mut problems = std::mem::take(&mut self.told);
        if self.untold > 0 {
            let rest = Problem { more: self.untold - 1, ..Problem::new("more is wrong than is told here") };
            problems.push(rest.in_file(self.file.clone()));
        }
        Err(problems)
    }

    /// The list with `problem` added, for where nothing more can be read.
    pub(super) fn end(mut self, problem: Problem) -> Problems {
        self.add(problem);
        self.check().err().unwrap_or_default()
    }
}

/// A found text as a message can show it: one line, no control characters, at most 40 characters.
pub(super) fn shown(text: &str) -> String {
    let text = text.trim();
    let start: String = text.chars().take(MOST_CHARS).flat_map(printable).collect();
    if text.chars().nth(MOST_CHARS).is_some() { format!("'{start}…'") } else { format!("'{start}'") }
}

fn printable(c: char) -> impl Iterator<Item = char> {
    let escape = c.is_control().then(|| c.escape_default());
    let plain = escape.is_none().then_some(c);
    escape.into_iter().flatten().chain(plain)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_long_list_is_cut_and_counted() {
        let mut findings = Findings::new("a.csv");
        assert!(findings.check().is_ok());
        for line in 1..=25 {
            findings.add(Problem::new(format!("bad in way {line}")).at_line(line));
        }
        let problems = findings.check().unwrap_err();
        assert_eq!(problems.len(), 21);
        // 25 kinds less the twenty told; the line itself counts as one of the five.
        assert_eq!((problems[19].more, problems[20].more), (0, 4));
    }

    #[test]
    fn of_one_kind_three_are_told_and_the_others_counted() {
        let mut findings = Findings::new("a.csv");
        (1..=25).for_each(|line| findings.add(Problem::new(format!("'{line}' is bad")).at_line(line)));
        findings.add(Problem::new("worse").at_line(26));
        let problems = findings.check().unwrap_err();
        let more: Vec<usize> = problems.iter().map(|problem| problem.more).collect();
        // 25 of one kind less the three told, at the last of these; then the other kind.
        assert_eq!(more, [0, 0, 22, 0]);
    }

    #[test]
    fn a_found_text_is_shown_short_and_on_one_line() {
        assert_eq!(shown(" a\tb "), "'a\\tb'");
        assert_eq!(shown(&"x".repeat(50)), format!("'{}…'", "x".repeat(40)));
    }
}
