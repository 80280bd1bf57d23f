#!/usr/bin/env bash
# Takes the pictures of the documentation anew, from the demo shop in a real browser, into docs/images.
# Build first (dotnet build ShopFluids.sln); the pictures show what is built.
#
#   bash deploy/dev/screenshots.sh
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
tests=tests/ShopFluids.EndToEnd.Tests/bin/Debug/net10.0/ShopFluids.EndToEnd.Tests
[ -x "$tests" ] || { echo "$tests is not built" >&2; exit 1; }

SHOPFLUIDS_TEST_PICTURES=$PWD/docs/images "$tests" -noLogo -explicit only -class ShopFluids.EndToEnd.Tests.Pictures.PictureMaker
ls -l docs/images/*.png
