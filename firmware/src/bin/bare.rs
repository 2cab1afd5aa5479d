//! One identification and nothing else, for its size.
//!
//! The query is opaque to the compiler, so that no kind of reading is cut away.

#![cfg_attr(target_os = "none", no_std, no_main)]

#[cfg(not(target_os = "none"))]
fn main() {
    eprintln!("This is for the size of a board's program; see tests/scripts/measure.py.");
}

#[cfg(target_os = "none")]
mod board {
    use core::hint::black_box;

    use cortex_m as _;
    use cortex_m_rt::entry;
    use springline_core::identify::identify;
    use springline_core::image::Image;
    use springline_core::reading::Query;
    use springline_tables::IMAGE;

    #[entry]
    fn main() -> ! {
        // An opaque query holds any readings that the compiler may think of.
        let query: Query = black_box(Query::new());
        if let Ok(image) = Image::new(black_box(IMAGE)) {
            let _ = black_box(identify(&image, &query));
        }
        loop {
            core::hint::spin_loop();
        }
    }

    #[panic_handler]
    fn panic(_: &core::panic::PanicInfo<'_>) -> ! {
        loop {
            core::hint::spin_loop();
        }
    }
}
