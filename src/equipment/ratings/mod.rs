//! Seasonal ratings by the standards: test points in, one figure for a season out.
//!
//! United States: HSPF2 and SEER2 by 10 CFR 430 Subpart B Appendix M1, HSPF by Appendix M. Europe:
//! SCOP and SEER by EN 14825. Each function keeps its standard's own rules, which are not those of
//! the simulation. Knows no house, no hour and no money. Start at [`points`], or at [`of_map`] for
//! the ratings of a performance map.

pub mod seasons;
pub mod points;
pub mod us_heating;
pub mod us_cooling;
pub mod declared;
pub mod eu_heating;
pub mod eu_cooling;
pub mod of_map;
