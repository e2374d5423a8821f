//! The sheet that goes home, before it has a form: page one and what it is printed and shown with.
//!
//! Start at [`Sheet`].

use super::front::Front;
use super::logo::Logo;
use crate::study::Levers;

/// Page one with what it is printed and shown with.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Page one.
    pub front: Front,
    /// The logo of who hands it over.
    pub logo: Option<Logo>,
    /// How yearly costs hang on prices.
    pub levers: Levers,
}
