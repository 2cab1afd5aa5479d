//! How much of the stack a call touches.

use core::arch::asm;

/// What untouched memory holds.
const PAINT: u32 = 0xC0DE_57AC;

unsafe extern "C" {
    /// End of the statics, from the linker script; the stack grows down to it.
    static __ebss: u8;
}

/// The free memory below a caller, painted so that what a call has touched can be seen.
pub(crate) struct Painted {
    bottom: usize,
    top: usize,
}

impl Painted {
    /// Paints from the end of the statics to the stack pointer.
    #[allow(
        clippy::inline_always,
        reason = "the stack pointer must be the caller's"
    )]
    #[inline(always)]
    pub(crate) fn below() -> Self {
        let bottom = (&raw const __ebss).addr().next_multiple_of(4);
        let top: usize;
        // SAFETY: the words from the end of the statics up to the stack pointer belong to nobody: there is no heap, no
        // interrupt is enabled, and this code keeps nothing below its own stack pointer.
        unsafe {
            asm!(
                "mov {top}, sp",
                "2:",
                "cmp {at}, {top}",
                "bhs 3f",
                "str {paint}, [{at}]",
                "adds {at}, #4",
                "b 2b",
                "3:",
                top = out(reg) top,
                at = inout(reg) bottom => _,
                paint = in(reg) PAINT,
            );
        }
        Self { bottom, top }
    }

    /// Bytes of stack that were touched below the caller since.
    pub(crate) fn touched(&self) -> usize {
        let mut at = self.bottom;
        // SAFETY: aligned words of RAM between the statics and the painter's stack pointer, as above; volatile, since
        // they are written behind the compiler's back.
        while at < self.top
            && unsafe { core::ptr::with_exposed_provenance::<u32>(at).read_volatile() } == PAINT
        {
            at += 4;
        }
        self.top - at
    }
}
