//! The tank's own keys into a [`Tank`].
//!
//! Start at `Builder::tank`.

use super::builder::Builder;
use crate::job::PlacementWord;
use crate::sources::Source;
use crate::supply::tank::{Placement, Tank};
use crate::supply::vapour::Shape;
use crate::units::Quantity;

impl Builder<'_, '_> {
    pub(super) fn tank(&mut self) -> Option<Tank> {
        let (section, fuel) = (&self.section.tank, self.fuel.id.as_str());
        let capacity_kwh = self.kwh(&section.capacity, "capacity")?;
        let (propane, liquid) = (fuel == "propane", self.fuel.units_in("gal").is_some());
        let limit = section.fill_limit.as_deref().copied();
        let fill_limit = if propane {
            let source = || Source::Published("NFPA 58: propane tanks are filled to 80 % at most".into());
            self.assumptions.or_default(limit, self.key("fill_limit"), 0.8, "0.80", source)
        } else {
            let (share, written) = if liquid { (0.95, "0.95") } else { (1.0, "1") };
            self.given(limit, "fill_limit", share, written, "room is left in a tank of oil only")
        };
        let (share, written) = if liquid { (0.05, "0.05") } else { (0.0, "0") };
        let why = "what stays below the outlet, or at too little pressure";
        let reserve = self.given(section.reserve.as_deref().copied(), "reserve", share, written, why);
        let placement = section.placement.as_deref().map(|word| match word {
            PlacementWord::AboveGround => Placement::AboveGround,
            PlacementWord::Buried => Placement::Buried,
            PlacementWord::Indoors => Placement::Indoors,
        });
        let placement = match propane {
            true => {
                self.given(placement, "placement", Placement::AboveGround, "above_ground", "the usual one")
            }
            false => self.given(placement, "placement", Placement::Indoors, "indoors", "the usual one"),
        };
        let shape = propane.then(|| self.shape(placement));
        Some(Tank { capacity_kwh, fill_limit, reserve, placement, shape })
    }

    fn shape(&mut self, placement: Placement) -> Shape {
        let capacity = &self.section.tank.capacity.value;
        let own_units = self.fuel.units_in(&capacity.unit).unwrap_or(1.0) * capacity.amount;
        let gallons = own_units / self.fuel.units_in("gal").unwrap_or(1.0);
        let given = self.section.tank.measures.as_ref();
        let given = given.map(|(d, l)| Shape { diameter_m: d.base(), length_m: l.base() });
        let usual = Shape::usual(gallons);
        if given.is_none() && placement == Placement::AboveGround {
            for (key, metres) in [("diameter", usual.diameter_m), ("length", usual.length_m)] {
                let source = Source::FromMemory("the listed tank of the nearest size".into());
                self.assumptions.note(
                    self.key(key),
                    self.job.job.units.system().measure_text(metres),
                    source,
                );
            }
        }
        given.unwrap_or(usual)
    }
}
