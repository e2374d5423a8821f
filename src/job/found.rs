//! The problems of one text while it is read, parted by how sure they are.
//!
//! Must never know keys. Start at [`Found`].

use std::cell::RefCell;
use std::ops::Range;

use super::sections::problem_at;
use super::wording::Fault;
use crate::problem::Problem;

/// More problems than this are not collected: nobody reads them, and a hostile file has millions.
pub(super) const MOST_PROBLEMS: usize = 200;

/// All problems of one text.
pub(super) struct Found<'a> {
    pub(super) file: &'a str,
    pub(super) text: &'a str,
    /// Values that cannot be read: true whatever else is broken.
    pub(super) values: RefCell<Vec<Problem>>,
    /// Missing and unknown keys, and keys that do not go together: only sure when the text parses.
    pub(super) form: RefCell<Vec<Problem>>,
}

impl<'a> Found<'a> {
    pub(super) fn new(file: &'a str, text: &'a str) -> Self {
        Self { file, text, values: RefCell::default(), form: RefCell::default() }
    }

    /// Whether further problems of form are dropped, so that looking for them is of no use.
    pub(super) fn is_full(&self) -> bool {
        self.form.borrow().len() >= MOST_PROBLEMS
    }

    /// Adds a problem to one of the two lists.
    pub(super) fn push(&self, list: &RefCell<Vec<Problem>>, span: &Range<usize>, key: &str, fault: Fault) {
        let mut list = list.borrow_mut();
        if list.len() < MOST_PROBLEMS {
            let mut problem = problem_at(self.file, self.text, span, key, fault.what);
            (problem.allowed, problem.help) = (fault.allowed, fault.help);
            list.push(problem);
        }
    }
}
