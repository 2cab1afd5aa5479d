# shellcheck shell=bash
# Runs named steps, times them, and counts those that pass; sourced by tests/run and tests/run-nightly.

passed=0
failures=()

# step NAME COMMAND...: the output of a step is shown when it fails, and its last line when it passes.
step() {
    local name=$1 log began seconds
    shift
    log=$(mktemp)
    began=$SECONDS
    printf '== %s\n' "$name"
    if "$@" >"$log" 2>&1; then
        passed=$((passed + 1))
        seconds=$((SECONDS - began))
        tail -n 1 "$log" | sed 's/^/   /'
        printf '   ok, %s s\n' "$seconds"
    else
        seconds=$((SECONDS - began))
        cat "$log"
        failures+=("$name")
        printf '   FAILED, %s s: %s\n' "$seconds" "$*"
    fi
    rm -f "$log"
}

# The last line of a run, and its exit code.
conclude() {
    echo
    [ ${#failures[@]} -eq 0 ] || printf 'failed: %s\n' "${failures[@]}"
    echo "$((passed + ${#failures[@]})) steps in $SECONDS s"
    echo "$passed passed, ${#failures[@]} failed"
    [ ${#failures[@]} -eq 0 ]
}
