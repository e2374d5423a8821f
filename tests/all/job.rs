//! The job reader and the job editor, held against the demonstration job and small jobs.

use winterledger::job::reader::{from_bytes, read};
use winterledger::job::{MachineSection, MapSection, PriceSection};
use winterledger::units::Quantity;

const DEMO: &str = include_str!("../../data/demo.toml");

#[test]
fn the_demonstration_job_reads_without_problems() {
    let job = read("demo.toml", DEMO.to_owned()).unwrap();
    assert_eq!(job.house.zone.len(), 2);
    assert_eq!(job.equipment.len(), 9);
    assert_eq!(job.options.len(), 6);
    // Typed in the file: 33,250 Btu/h; hand-worked: 33,250 / 3412.141633 = 9.744613 kW.
    assert!((job.house.zone[0].design_load.base() - 9.744_613).abs() < 1e-5);
    assert_eq!(&job.text[job.house.zone[0].design_load.span.clone()], "\"33250 Btu/h\"");
    let MachineSection::HeatPump(pump) = &job.machine("main heat pump").unwrap().kind.value else { panic!() };
    let MapSection::Rows(rows) = &pump.heating else { panic!() };
    assert_eq!(rows.len(), 6);
    let PriceSection::ByMonth(months) = &job.prices.fuel("propane").unwrap().price else { panic!() };
    // Typed in the file: jan 2.69, jul 1.69 $/gal.
    assert_eq!((months[0].amount, months[6].amount), (2.69, 1.69));
    assert_eq!(job.sha256.len(), 64);
}
