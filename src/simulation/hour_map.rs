//! What a machine can do in each hour of a run: made once a machine and weather, since it does not
//! depend on the load. The memory of cut-out and cut-on lives here.
//!
//! Start at [`HourMap`].

use std::cell::RefCell;
use std::ops::Range;

use crate::equipment::output::MachineHour;
use crate::equipment::{Cooling, Heating, Presence};

/// Whether a heater is on at each of these temperatures (°C) in order, with its memory of cut-outs.
pub fn presences(heating: &Heating, source_c: impl Iterator<Item = f64>) -> impl Iterator<Item = Presence> {
    let mut was_on = true;
    source_c.map(move |t| {
        let presence = heating.presence(t, was_on);
        was_on = presence != Presence::CutOut;
        presence
    })
}

/// What a machine can do, hour by hour.
#[derive(Debug, Clone, PartialEq)]
pub struct HourMap {
    /// Each different hour once.
    rows: Vec<MachineHour<f64>>,
    /// Which row holds in each hour; empty where the first row holds in all of them.
    row_of: Vec<u32>,
}

/// Hours in which a heater was off, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct OffHours {
    /// At or below the cut-out.
    pub cut_out: usize,
    /// Colder than the map reaches.
    pub no_data: usize,
    /// Switched off by its supplier.
    pub interrupted: usize,
}

impl HourMap {
    /// A machine that is off in every hour.
    pub fn off() -> Self {
        Self::same(MachineHour::OFF)
    }

    fn same(row: MachineHour<f64>) -> Self {
        Self { rows: vec![row], row_of: Vec::new() }
    }

    /// The hours `span` alone, counted from 0 again.
    #[must_use]
    pub fn part(&self, span: Range<usize>) -> Self {
        let row_of = self.row_of.iter().skip(span.start).take(span.len()).copied().collect();
        Self { rows: self.rows.clone(), row_of }
    }

    /// What a machine can do in hour `i` of the run.
    #[inline(always)]
    pub fn at(&self, i: usize) -> &MachineHour<f64> {
        // A machine that does not depend on the outdoors names no rows: the first is its only one.
        let row = self.row_of.get(i).map_or(0, |row| *row as usize);
        self.rows.get(row).unwrap_or(&MachineHour::OFF)
    }

    /// A heater through the hours in order.
    pub fn heating(heating: &Heating, outdoor_c: &[f64]) -> (Self, OffHours) {
        let mut off = OffHours::default();
        let anywhere = heating.map.warmest_c() == f64::NEG_INFINITY && heating.pan_heater.is_none();
        if anywhere && heating.cut_out_c.is_none() && heating.lockout_above_c.is_none() {
            return (Self::same(heating.hour_at(0.0)), off);
        }
        let mut rows = Rows::new();
        let presences = presences(heating, outdoor_c.iter().copied());
        let row_of = outdoor_c.iter().zip(presences).map(|(t, presence)| {
            off.cut_out += usize::from(presence == Presence::CutOut);
            off.no_data += usize::from(presence == Presence::NoData);
            if presence == Presence::On { rows.row_of(*t, |t| heating.hour_at(t)) } else { OFF_ROW }
        });
        let row_of = row_of.collect();
        (Self { rows: rows.rows, row_of }, off)
    }

    /// The same for a run of so many hours, other in some of them: there each row as `change` makes it.
    #[must_use]
    pub fn changed(
        mut self,
        hours: usize,
        change: impl Fn(MachineHour<f64>) -> MachineHour<f64>,
        is_changed: impl Fn(usize) -> bool,
    ) -> Self {
        let own = self.rows.len() as u32;
        self.rows.extend_from_within(..);
        for row in self.rows.iter_mut().skip(own as usize) {
            *row = change(*row);
        }
        let row_of =
            |i: usize| self.row_of.get(i).copied().unwrap_or(0) + if is_changed(i) { own } else { 0 };
        let row_of = (0..hours).map(row_of).collect();
        Self { rows: self.rows, row_of }
    }

    /// The same, but off in the hours in which `off` is true.
    #[must_use]
    pub fn off_in(&self, off: &[bool]) -> Self {
        let is_off = |i: usize| off.get(i).copied().unwrap_or_default();
        self.clone().changed(off.len(), |_| MachineHour::OFF, is_off)
    }

    /// A cooler through the hours in order.
    pub fn cooling(cooling: &Cooling, outdoor_c: &[f64]) -> Self {
        let mut rows = Rows::new();
        let row_of = outdoor_c.iter().map(|t| rows.row_of(*t, |t| cooling.hour_at(t))).collect();
        Self { rows: rows.rows, row_of }
    }
}

/// Hour maps of one weather run that several options, or several jobs, have in common; told another run,
/// it forgets those of the one before.
#[derive(Debug, Default)]
pub struct HourMaps(RefCell<Made>);

/// The outdoors that the maps are of, °C, and the maps.
#[derive(Debug, Default)]
struct Made {
    outdoor_c: Vec<f64>,
    heating: Vec<(Heating, HourMap, OffHours)>,
    cooling: Vec<(Cooling, HourMap)>,
}

/// More maps than this are not kept.
const MOST_MAPS: usize = 100;

impl HourMaps {
    /// As [`HourMap::heating`].
    pub fn heating(&self, heating: &Heating, outdoor_c: &[f64]) -> (HourMap, OffHours) {
        let mut made = self.0.borrow_mut();
        made.turn_to(outdoor_c);
        if let Some((_, hours, off)) = made.heating.iter().find(|(own, ..)| own == heating) {
            return (hours.clone(), *off);
        }
        let (hours, off) = HourMap::heating(heating, outdoor_c);
        if made.heating.len() < MOST_MAPS {
            made.heating.push((heating.clone(), hours.clone(), off));
        }
        (hours, off)
    }

    /// As [`HourMap::cooling`].
    pub fn cooling(&self, cooling: &Cooling, outdoor_c: &[f64]) -> HourMap {
        let mut made = self.0.borrow_mut();
        made.turn_to(outdoor_c);
        if let Some((_, hours)) = made.cooling.iter().find(|(own, _)| own == cooling) {
            return hours.clone();
        }
        let hours = HourMap::cooling(cooling, outdoor_c);
        if made.cooling.len() < MOST_MAPS {
            made.cooling.push((cooling.clone(), hours.clone()));
        }
        hours
    }
}

impl Made {
    fn turn_to(&mut self, outdoor_c: &[f64]) {
        if self.outdoor_c != outdoor_c {
            *self = Self { outdoor_c: outdoor_c.to_vec(), ..Self::default() };
        }
    }
}

/// The row of a machine that is off.
const OFF_ROW: u32 = 0;
/// Weather is written in steps of a tenth of a degree.
const STEPS_IN_KELVIN: f64 = 10.0;
/// Places for temperatures: enough for 120 K in such steps. Colder and warmer share the end places.
const PLACES: usize = 1200;
const COLDEST_PLACE_C: f64 = -60.0;

/// Makes rows, and finds them again by temperature: a year has thousands of hours but only a few
/// hundred temperatures, and a small table is made and read several times as fast as a row an hour.
///
/// Each place keeps the last temperature near it, to the last bit; one that differs gets a row of
/// its own, so results never depend on the steps.
struct Rows {
    rows: Vec<MachineHour<f64>>,
    last: Vec<(f64, u32)>,
}

impl Rows {
    fn new() -> Self {
        Self { rows: vec![MachineHour::OFF], last: vec![(f64::NAN, OFF_ROW); PLACES] }
    }

    /// The place in the table of the row at `outdoor_c` °C, made by `make` unless it is there.
    #[inline(always)]
    fn row_of(&mut self, outdoor_c: f64, make: impl FnOnce(f64) -> MachineHour<f64>) -> u32 {
        // Half a step is added so that a tenth written with a rounding error keeps to its place.
        let place = ((outdoor_c - COLDEST_PLACE_C) * STEPS_IN_KELVIN + 0.5) as usize;
        let next = self.rows.len() as u32;
        let Some(last) = self.last.get_mut(place.min(PLACES - 1)) else { return OFF_ROW };
        if last.0 != outdoor_c {
            self.rows.push(make(outdoor_c));
            *last = (outdoor_c, next);
        }
        last.1
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::equipment::map::{MapRow, PerformanceMap, Point};

    fn cooling() -> Cooling {
        let at = |outdoor_c, capacity_kw| {
            let point = Point { capacity_kw, power_kw: 2.0 };
            MapRow { outdoor_c, least: point, rated: point, greatest: point }
        };
        let map = PerformanceMap::new(vec![at(-100.0, 6.0), at(100.0, 10.0)]).unwrap();
        Cooling { map, cycling_loss: 0.1, sensible_heat_ratio: 0.7, fan_kw: 0.3 }
    }

    #[test]
    fn every_hour_is_what_the_machine_does_at_its_temperature_to_the_last_bit() {
        let next_to = f64::from_bits(20.0_f64.to_bits() + 1);
        let outdoor_c = [20.0, 20.0, next_to, 20.04, 20.0, -61.0, -75.0, -61.0, 61.0, 90.0, 61.0, 0.0, -0.1];
        let (cooling, hours) = (cooling(), HourMap::cooling(&cooling(), &outdoor_c));
        for (i, t) in outdoor_c.iter().enumerate() {
            assert_eq!(*hours.at(i), cooling.hour_at(*t), "hour {i}, {t} °C");
        }
        assert_eq!(*hours.at(outdoor_c.len()), MachineHour::OFF);
        assert_eq!(hours.part(3..6).at(2), hours.at(5));
    }

    #[test]
    fn maps_that_are_kept_are_those_that_are_made_anew_whatever_the_run() {
        let (maps, one, other) = (HourMaps::default(), cooling(), Cooling { fan_kw: 0.4, ..cooling() });
        for run in [[20.0, 30.0], [20.0, 31.0], [20.0, 30.0]] {
            for machine in [&one, &other, &one] {
                assert_eq!(maps.cooling(machine, &run), HourMap::cooling(machine, &run));
            }
        }
        assert_eq!(maps.0.borrow().cooling.len(), 2);
    }

    #[test]
    fn a_temperature_that_comes_again_has_its_row_again() {
        let hours = HourMap::cooling(&cooling(), &[20.0, 20.1, 20.0, 20.1, 20.0]);
        assert_eq!(hours.row_of, [1, 2, 1, 2, 1]);
        assert_eq!(hours.rows.len(), 3);
    }
}
