use super::*;
use crate::demo::lantern_green;
use crate::plan::compute;

#[test]
fn look() {
    let job = lantern_green();
    let plan = compute(&job).unwrap().plan;
    let start = std::time::Instant::now();
    let limit = gust_limit(&job, &plan, &mut |_, _, _| true);
    println!("{:?}", start.elapsed());
    for rose in [&limit.raised, &limit.lowered] {
        println!("{:?} {}", rose.height, rose.top_m);
        for d in rose.directions.iter().step_by(3) {
            println!("{:5.0} {:7.3} {}", d.from_deg, d.gust_m_per_s, d.weakest.as_ref().map_or("", |p| &p.name));
        }
    }
    println!("{:?} {:?}", limit.lower_at_m_per_s, limit.lay_down_at_m_per_s);
    println!("{:#?}", limit.not_shown);
    for f in &limit.findings { println!("{:?} {}", f.severity, f.sentence); }
    for height in [MastHeight::Raised, MastHeight::Lowered] {
        for gust in [0.0, 15.0] {
            let t = wind_table(&job, &plan, &WindQuestion { height, gust_m_per_s: gust, from_deg: None }).unwrap();
            println!("{height:?} {gust} from {} top {} λ {:?} down {} side {} {:?}", t.from_deg, t.top_movement_m, t.buckling_factor, t.foot_down_n, t.foot_sideways_n, t.falls_because);
            for p in &t.parts {
                println!("  {:45} {:?} {:?} {:?} / {:?}", p.part.name, p.utilisation, p.force_n, p.moment_nm, p.carries.as_ref().and_then(|c| c.allowable_n()));
            }
        }
    }
}

#[test]
fn changes() {
    let job = lantern_green();
    let plan = compute(&job).unwrap().plan;
    let c = wind_changes(&job, &plan, &mut |_, _| true).unwrap();
    println!("{:?}", c.now);
    for c in c.changes { println!("{:6.2} {:+6.2} {} -> {:?} {:?}", c.gust_m_per_s, c.gain_m_per_s, c.what, c.weakest.map(|p| p.name), c.proof_pull_n); }
}
