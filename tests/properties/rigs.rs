//! Which rig: what is offered can be built, weighs what its tubes weigh, and is what the plan says of it when it is taken over.

use mastwright_engine::demo::lantern_green;
use mastwright_engine::job::{AnchorLayout, Job, Section, StockLength, Tube, blank};
use mastwright_engine::quantity::{UnitSystem, Units};
use mastwright_engine::rigs::{MOST_SLENDER, NoRig, RigMerit, RigOffer, RigWishes, rigs};
use mastwright_engine::tube::{TubeTable, sizes};
use mastwright_engine::{plan, wind_capacity};

fn empty() -> Job {
    blank(Units { system: UnitSystem::Metric, inch_fraction: 16 })
}

fn wishes(light_height_m: f64, longest_piece_m: f64) -> RigWishes {
    RigWishes {
        light_height_m,
        longest_piece_m,
        strand_count: None,
        strand_length_m: None,
        tables: Vec::new(),
    }
}

fn refused(job: &Job, wishes: &RigWishes) -> Vec<String> {
    rigs(job, wishes).unwrap_err().errors.into_iter().map(|error| error.path).collect()
}

/// Every offer at many heights slides together, reaches the height by no more than a step of each tube, is planned with nothing
/// said against its tubes, and no piece of it is longer than can be bought.
#[test]
fn what_is_offered_is_planned_with_nothing_said_against_its_tubes() {
    let job = empty();
    for tenths in (25..=80).step_by(11) {
        let height_m = f64::from(tenths) / 10.0;
        let choice = rigs(&job, &wishes(height_m, 3.0)).unwrap();
        assert!(!choice.offers.is_empty(), "{height_m}");
        for offer in &choice.offers {
            let built = Job { rig: offer.rig.clone(), ..job.clone() };
            let mast = plan::compute(&built).unwrap().plan.mast;
            let n = offer.rig.tubes.len() as f64;
            assert!(
                mast.raised_height_m >= height_m - 1e-9 && mast.raised_height_m < height_m + 0.05 * n + 1e-9,
                "{height_m}"
            );
            assert!((mast.raised_height_m - offer.raised_m).abs() < 1e-9);
            assert!((mast.lowered_height_m - offer.lowered_m).abs() < 1e-9);
            assert!((mast.mass_kg - offer.mass_kg).abs() < 1e-9);
            assert!(offer.longest_piece_m <= 3.0 + 1e-9 && offer.slenderness <= MOST_SLENDER);
            let about_tubes = |rule: &str| rule.starts_with("tube_");
            let findings = plan::compute(&built).unwrap().plan.findings;
            assert!(
                !findings.iter().any(|finding| about_tubes(finding.rule.name())),
                "{height_m}: {findings:?}"
            );
        }
    }
}

/// Each offer of rigid conduit: what is inside by its play and its diameters, how high it reaches, what it weighs, all from the table. The
/// sum by hand of one set stands with the sets themselves (`rigs/tubes.rs`): that one is too thin for a single level of guys at 5 m.
#[test]
fn offers_of_conduit_are_sums_of_the_table() {
    let only = RigWishes { tables: vec![TubeTable::Rmc], ..wishes(5.0, 3.0) };
    let choice = rigs(&empty(), &only).unwrap();
    assert!(!choice.offers.is_empty());
    for offer in &choice.offers {
        let tubes = &offer.rig.tubes;
        let rows: Vec<_> = tubes
            .iter()
            .map(|tube| {
                let Section::Listed { size, .. } = &tube.section else { panic!() };
                sizes(TubeTable::Rmc).iter().find(|row| row.size == size).unwrap()
            })
            .collect();
        let mut top_m = tubes[0].length_m;
        for (pair, tube) in rows.windows(2).zip(&tubes[1..]) {
            let bore_mm = pair[0].outside_mm - 2.0 * pair[0].wall_mm;
            let play_m = (bore_mm - pair[1].outside_mm) / 1000.0;
            let least_m = (play_m / 0.6_f64.to_radians().tan()).max(2.0 * pair[1].outside_mm / 1000.0);
            assert!(tube.overlap_m >= least_m - 1e-9 && tube.overlap_m < least_m + 0.05 + 1e-9);
            top_m += tube.length_m - tube.overlap_m;
        }
        assert!((top_m - offer.raised_m).abs() < 1e-9);
        let kg: f64 = rows.iter().zip(tubes).map(|(row, tube)| row.mass_kg_per_m * tube.length_m).sum();
        assert!((kg - offer.mass_kg).abs() < 1e-9);
        assert_eq!(offer.people, (kg / 23.0).ceil() as u32);
    }
}

/// The first mast of RMC for 5 m: each of its tubes takes a length of 10 ft of its own size, for 21.50 and one more for each size on: 21.50 +
/// 22.50, and 23.50 where there are three. A size without a price of a length that is long enough is named, and no sum is told.
#[test]
fn the_tubes_cost_what_their_bars_cost() {
    let only = RigWishes { tables: vec![TubeTable::Rmc], ..wishes(5.0, 3.0) };
    let mut job = empty();
    let first = |job: &Job| rigs(job, &only).unwrap().offers.remove(0);
    let open = |offer: &RigOffer| offer.no_price.iter().map(|it| it.size.clone()).collect::<Vec<_>>();
    let unpriced = first(&job);
    let sizes = open(&unpriced);
    assert_eq!((unpriced.tubes_cost, sizes.len()), (None, unpriced.rig.tubes.len()), "all are named");
    let stock = |size: &str, length_m: f64, price: f64| StockLength {
        id: format!("{size} {length_m}"),
        material: format!("tube rmc {size}"),
        length_m,
        price: Some(price),
    };
    let mut sum = 0.0;
    for (more, size) in (0..).zip(&sizes) {
        // What is too short to cut it from has no price that counts.
        job.workshop.stocks.push(stock(size, 1.0, 1.0));
        let offer = first(&job);
        assert_eq!((offer.tubes_cost, open(&offer)), (None, sizes[more..].to_vec()));
        sum += 21.5 + more as f64;
        job.workshop.stocks.push(stock(size, 3.048, 21.5 + more as f64));
    }
    let offer = first(&job);
    assert!((offer.tubes_cost.expect("known") - sum).abs() < 1e-9 && open(&offer).is_empty(), "{sum}");
}

/// π/64·(D⁴ − d⁴) of the tube where that is least.
fn thinnest_mm4(offer: &RigOffer) -> f64 {
    let moment = |tube: &Tube| {
        let Section::Listed { table, size } = &tube.section else { panic!() };
        let row = sizes(*table).iter().find(|row| row.size == size).unwrap();
        let inside_mm = row.outside_mm - 2.0 * row.wall_mm;
        std::f64::consts::PI / 64.0 * (row.outside_mm.powi(4) - inside_mm.powi(4))
    };
    offer.rig.tubes.iter().map(moment).fold(f64::INFINITY, f64::min)
}

/// The merits are true of all that is offered: the lightest is not heavier than the others, and so on.
#[test]
fn each_merit_is_true() {
    for height_m in [3.0, 5.5, 7.0] {
        let offers = rigs(&empty(), &wishes(height_m, 3.2)).unwrap().offers;
        assert!((1..=3).contains(&offers.len()));
        let has = |merit| offers.iter().find(|offer| offer.merits.contains(&merit)).unwrap();
        for offer in &offers {
            assert!(has(RigMerit::Lightest).mass_kg <= offer.mass_kg);
            assert!(thinnest_mm4(has(RigMerit::Stiffest)) >= thinnest_mm4(offer));
            assert!(has(RigMerit::ShortestPieces).longest_piece_m <= offer.longest_piece_m + 1e-9);
        }
        assert!(offers.windows(2).all(|pair| pair[0].mass_kg <= pair[1].mass_kg), "the lightest first");
    }
}

/// A strand of 6.5 m from 6 m up reaches √(6.5² − 6²) = 2.5 m out; one of 6 m hangs straight down and is refused.
#[test]
fn the_ring_is_where_the_strands_end() {
    let long = RigWishes { strand_length_m: Some(6.5), strand_count: Some(24), ..wishes(6.0, 3.2) };
    let choice = rigs(&empty(), &long).unwrap();
    for offer in &choice.offers {
        assert!((offer.ring_radius_m.unwrap() - 2.5).abs() < 1e-12);
        let strands = offer.rig.strands.as_ref().unwrap();
        assert_eq!((strands.count, strands.top_height_m), (24, 6.0));
    }
    let short = RigWishes { strand_length_m: Some(6.0), ..long };
    let refused = rigs(&empty(), &short).unwrap();
    assert_eq!(refused.none_because, Some(NoRig::StrandTooShort { strand_length_m: 6.0 }));
    assert!(refused.offers.is_empty());
    // Of strands that nobody has said anything of nothing is made up.
    assert!(
        rigs(&empty(), &wishes(6.0, 3.2)).unwrap().offers.iter().all(|offer| offer.ring_radius_m.is_none())
    );
}

#[test]
fn a_height_that_no_tubes_reach_says_how_high_they_do() {
    let choice = rigs(&empty(), &wishes(12.0, 1.5)).unwrap();
    let Some(NoRig::TooHigh { highest_m }) = choice.none_because else { panic!("{choice:?}") };
    assert!(highest_m > 2.0 && highest_m < 3.0 * 1.5, "{highest_m}");
}

#[test]
fn wishes_out_of_their_range_are_named() {
    let job = empty();
    assert_eq!(refused(&job, &wishes(0.5, 3.0)), ["/wishes/light_height_m"]);
    let both = RigWishes { strand_count: Some(0), ..wishes(5.0, f64::NAN) };
    assert_eq!(refused(&job, &both), ["/wishes/longest_piece_m", "/wishes/strand_count"]);
}

/// What nobody entered is not known: an empty yard has no gust limit, and says what it waits for. In the demo, where all is known,
/// the limit is the one of the plan with that rig taken over.
#[test]
fn a_gust_limit_stands_only_where_all_is_known() {
    let nothing = rigs(&empty(), &wishes(5.0, 3.0)).unwrap();
    assert!(nothing.offers.iter().all(|offer| offer.gust_m_per_s.is_none() && !offer.missing.is_empty()));

    let demo = lantern_green();
    let height_m = demo.rig.strands.as_ref().unwrap().top_height_m;
    // One table, so that few masts are held against the wind.
    let only = RigWishes { tables: vec![TubeTable::Emt], ..wishes(height_m, 3.1) };
    let choice = rigs(&demo, &only).unwrap();
    let offer = &choice.offers[0];
    let taken = Job { rig: offer.rig.clone(), as_built: None, ..demo.clone() };
    let layout = plan::compute(&taken).unwrap().layout;
    let limit = wind_capacity::withstand(&taken, &layout, &mut |_, _, _| true);
    assert_eq!(offer.gust_m_per_s, limit.raised.least.map(|least| least.gust_m_per_s));
    assert_eq!(offer.missing, limit.missing);
}

/// Guys at the heights that were said, on tubes that are there, and anchors as far out as the highest.
#[test]
fn guys_are_on_the_mast_and_their_anchors_at_45_degrees_of_the_highest() {
    for (height_m, levels) in [(4.5, 1), (7.0, 2)] {
        for offer in rigs(&empty(), &wishes(height_m, 3.2)).unwrap().offers {
            let heights: Vec<f64> = offer.rig.guy_levels.iter().map(|level| level.attach_height_m).collect();
            assert_eq!(heights.len(), if offer.rig.tubes.len() > 2 { 2 } else { levels });
            assert!(heights.windows(2).all(|pair| pair[0] < pair[1]));
            let highest_m = heights.last().copied().unwrap();
            assert!(highest_m < offer.raised_m && highest_m > 0.7 * height_m);
            for level in &offer.rig.guy_levels {
                let AnchorLayout::EqualRadius { radius_m } = level.anchor_layout else { panic!() };
                assert!(radius_m >= highest_m - 1e-9 && radius_m < highest_m + 0.051);
            }
        }
    }
}
