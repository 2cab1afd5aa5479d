//! Purchase groups of the real tables.

use super::real;
use crate::joints::{Groups, Job, Joints};
use crate::model::Sources;

struct Shop {
    sources: &'static Sources,
    joints: Joints,
    groups: Groups,
}

fn shop() -> Shop {
    let (sources, joints) = real();
    let groups = Groups::of(&joints, sources);
    Shop {
        sources,
        joints,
        groups,
    }
}

impl Shop {
    /// The group of the first row of a family and nominal size.
    fn of(&self, family: &str, nominal: &str, job: Job) -> u16 {
        let mut families = self.sources.families.iter();
        let index = families.position(|held| held.key == family).expect(family);
        let mut rows = self.sources.families[index].od.iter();
        let row = rows.position(|row| row.nominal == nominal).expect(nominal);
        self.groups
            .group(index, row, job)
            .expect("every row has one")
    }

    fn same(&self, one: (&str, &str), other: (&str, &str), job: Job) -> bool {
        self.of(one.0, one.1, job) == self.of(other.0, other.1, job)
    }
}

#[test]
fn c900_and_oriented_pvc_are_one_purchase_but_for_a_tap() {
    let shop = shop();
    for size in ["4", "6", "8", "12", "14", "24"] {
        let (c900, pvco) = (("c900", size), ("pvco", size));
        for job in [Job::None, Job::Saddle, Job::Coupling, Job::Restraint] {
            assert!(shop.same(c900, pvco, job), "{size} {}", job.key());
        }
        assert!(!shop.same(c900, pvco, Job::Length), "{size}");
    }
    // DR 18 is tapped directly in 6 to 12 in.
    assert!(!shop.same(("c900", "6"), ("pvco", "6"), Job::Tap));
}

#[test]
fn c900_and_iron_share_a_coupling_but_no_restraint() {
    let shop = shop();
    for size in ["4", "6", "8", "10", "12", "14", "16", "24"] {
        let (c900, iron) = (("c900", size), ("ductile-iron", size));
        assert!(shop.same(c900, iron, Job::Coupling), "{size}");
        for job in [Job::None, Job::Restraint, Job::Length, Job::Tap] {
            assert!(!shop.same(c900, iron, job), "{size} {}", job.key());
        }
    }
    // PE needs a stiffener in the same sleeve.
    assert!(!shop.same(("c900", "6"), ("hdpe-dips", "6"), Job::Coupling));
}

#[test]
fn sizes_of_one_od_and_other_systems_are_other_purchases() {
    let shop = shop();
    // 15.30 in four times, and the nearest IPS size.
    let pipes = [
        ("c900", "14"),
        ("pip", "15"),
        ("sewer-pvc", "15"),
        ("ips-pvc", "14"),
    ];
    for (index, one) in pipes.into_iter().enumerate() {
        for other in pipes.into_iter().skip(index + 1) {
            for job in Job::ALL {
                // A coupling is asked for by the OD that it holds; gravity pipe is too thin for the same.
                let coupled = *job == Job::Coupling && [one.0, other.0] == ["c900", "pip"];
                assert_eq!(
                    shop.same(one, other, *job),
                    coupled,
                    "{one:?} {other:?} {}",
                    job.key()
                );
            }
        }
    }
    // What looks like water pipe and is none is bought apart, whatever its OD.
    for family in ["conduit", "drain-pvc", "gas-pe", "steel", "hdpe-ips"] {
        assert!(
            !shop.same(("ips-pvc", "6"), (family, "6"), Job::Saddle),
            "{family}"
        );
    }
}

#[test]
fn rows_of_one_size_and_od_have_one_group() {
    let shop = shop();
    for (index, family) in shop.sources.families.iter().enumerate() {
        for (a, one) in family.od.iter().enumerate() {
            for (b, other) in family.od.iter().enumerate() {
                let alike = one.nominal == other.nominal && one.od.value == other.od.value;
                for job in Job::ALL {
                    let groups = [a, b].map(|row| shop.groups.group(index, row, *job));
                    assert_eq!(groups[0] == groups[1], alike, "{} {a} {b}", family.key);
                }
            }
        }
    }
}

#[test]
fn numbers_are_dense_and_in_the_order_of_the_rows() {
    let shop = shop();
    for job in Job::ALL {
        let mut next = 0;
        for (index, family) in shop.sources.families.iter().enumerate() {
            for row in 0..family.od.len() {
                let group = shop.groups.group(index, row, *job).expect("every row");
                assert!(group <= next, "{}", job.key());
                next = next.max(group + 1);
            }
        }
        assert_eq!(next, shop.groups.count(*job));
    }
    assert_eq!(shop.groups, Groups::of(&shop.joints, shop.sources));
}
