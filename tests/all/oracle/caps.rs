//! What the oracle's machines may not go beyond in an hour: stores, a stove's fuelling of the day, outdoor
//! units; whoever is beyond one shrinks with all others on it by one share, and the hour runs again.
//!
//! Imports nothing from the crate. Start at [`Caps::run_within`].

use super::{AtHour, Course, Hour, Machine, Ran, Shared, Zone};

/// What bounds some machines.
enum By {
    /// Fuel of a store.
    Store(usize),
    /// What was laid in for one machine: zone and place.
    Day((usize, usize)),
    /// Heat of an outdoor unit.
    Unit(usize),
}

pub(super) struct Caps {
    all: Vec<By>,
    /// kWh still to be had of each; infinite where nothing is used up.
    left: Vec<f64>,
    /// kW of each in the hour.
    most: Vec<f64>,
    /// Outdoor units through the hours: heating and cooling.
    heating: Vec<Vec<AtHour>>,
    cooling: Vec<Option<Vec<AtHour>>>,
}

impl Caps {
    pub(super) fn new(zones: &[Zone], shared: &Shared, outdoor: &[f64]) -> Self {
        let mut all: Vec<By> = (0..shared.stores.len()).map(By::Store).collect();
        for (z, zone) in zones.iter().enumerate() {
            for (place, placed) in zone.machines().iter().enumerate() {
                match &placed.machine {
                    Machine::Furnace(f) if f.daily < f64::INFINITY => all.push(By::Day((z, place))),
                    _ => {}
                }
            }
        }
        all.extend((0..shared.units.len()).map(By::Unit));
        let units = || shared.units.iter();
        Caps {
            left: vec![f64::INFINITY; all.len()],
            most: vec![f64::INFINITY; all.len()],
            all,
            heating: units().map(|unit| unit.heating.at_each_hour(outdoor)).collect(),
            cooling: units()
                .map(|unit| unit.cooling.as_ref().map(|rows| rows.cooling_at_each_hour(outdoor)))
                .collect(),
        }
    }

    /// Fills what is filled at this hour, and looks what each can give in it.
    pub(super) fn begin_hour(&mut self, h: usize, zones: &[Zone], shared: &Shared) {
        for ((by, left), most) in self.all.iter().zip(&mut self.left).zip(&mut self.most) {
            match by {
                By::Store(s) => {
                    for &(hour, kwh) in &shared.stores[*s].left_at {
                        if hour == h {
                            *left = kwh;
                        }
                    }
                    *most = shared.stores[*s].greatest[h];
                }
                By::Day((z, place)) => match &zones[*z].machines()[*place].machine {
                    Machine::Furnace(stove) if h.is_multiple_of(24) => *left = stove.daily,
                    _ => {}
                },
                By::Unit(u) => *most = self.heating[*u][h].full(0.0),
            }
        }
    }

    /// Whether a cap holds the machine of that zone and place.
    fn holds(by: &By, course: &Course, at: (usize, usize)) -> bool {
        let placed = course.zone.machines()[at.1];
        match by {
            By::Store(s) => placed.store() == Some(*s),
            By::Day(only) => *only == at,
            By::Unit(u) => placed.unit == Some(*u),
        }
    }

    /// Every machine that a cap holds.
    fn all_on(by: &By, courses: &[Course]) -> Vec<(usize, usize)> {
        let places = |(z, course): (usize, &Course)| {
            (0..course.zone.machines().len()).map(move |place| (z, place)).collect::<Vec<_>>()
        };
        let all = courses.iter().enumerate().flat_map(places);
        all.filter(|at| Self::holds(by, &courses[at.0], *at)).collect()
    }

    /// Takes what was burned off what is left.
    fn take(&mut self, taken: &[f64]) {
        for ((by, left), taken) in self.all.iter().zip(&mut self.left).zip(taken) {
            if !matches!(by, By::Unit(_)) {
                *left = (*left - taken).max(0.0);
            }
        }
    }

    /// Runs the heating of every zone; gives what each machine did.
    pub(super) fn run_within(
        &mut self,
        courses: &[Course],
        needs: &[f64],
        h: usize,
        weather: (f64, Option<f64>),
    ) -> Vec<Vec<Ran>> {
        let mut most: Vec<Vec<Hour>> =
            courses.iter().map(|course| vec![Hour::FREE; course.zone.machines().len()]).collect();
        let mut bound = vec![false; self.all.len()];
        loop {
            let ran: Vec<Vec<Ran>> = courses
                .iter()
                .zip(needs)
                .zip(&most)
                .map(|((course, &need), most)| course.heat(h, weather, need, most))
                .collect();
            let mut again = false;
            let mut taken = vec![0.0; self.all.len()];
            for (c, by) in self.all.iter().enumerate() {
                let machines = Self::all_on(by, courses);
                let amount = |&(z, place): &(usize, usize)| match by {
                    By::Unit(_) => courses[z].by_itself(place, &ran[z], weather, &most[z]),
                    _ => ran[z][place].draw,
                };
                let amounts: Vec<f64> = machines.iter().map(amount).collect();
                taken[c] = amounts.iter().sum();
                let allowed = self.left[c].min(self.most[c]);
                if bound[c] || taken[c] <= allowed {
                    continue;
                }
                (bound[c], again) = (true, true);
                for ((z, place), amount) in machines.into_iter().zip(amounts) {
                    let share = amount * allowed / taken[c];
                    match by {
                        By::Unit(_) => most[z][place].heat = share,
                        _ => most[z][place].fuel = share,
                    }
                }
            }
            if !again {
                self.take(&taken);
                return ran;
            }
        }
    }

    /// The most total cooling that each zone's cooler may give.
    pub(super) fn share_cooling(&self, courses: &[Course], h: usize, outdoor: f64) -> Vec<f64> {
        let mut most = vec![f64::INFINITY; courses.len()];
        for (u, hours) in self.cooling.iter().enumerate() {
            let Some(hours) = hours else { continue };
            let hangs = |course: &Course| {
                let machine = course.zone.cooling.as_ref().and_then(|cooling| cooling.machine.as_ref());
                machine.is_some_and(|machine| machine.unit == Some(u))
            };
            let wishes: Vec<f64> = courses
                .iter()
                .map(|c| if hangs(c) { c.total_cooling(h, outdoor, c.room, f64::INFINITY) } else { 0.0 })
                .collect();
            let (all, allowed) = (wishes.iter().sum::<f64>(), hours[h].greatest.capacity);
            if all > allowed {
                for ((course, wish), most) in courses.iter().zip(&wishes).zip(&mut most) {
                    if hangs(course) {
                        *most = wish * allowed / all;
                    }
                }
            }
        }
        most
    }
}
