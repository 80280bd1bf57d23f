#!/usr/bin/env bash
# Takes the pictures of the documentation anew, from the demo shop in a real browser, into docs/images, and lists the pages in docs/pages.md.
# Build first (dotnet build ShopFluids.sln); the pictures show what is built.
#
#   bash deploy/dev/screenshots.sh
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
tests=tests/ShopFluids.EndToEnd.Tests/bin/Debug/net10.0/ShopFluids.EndToEnd.Tests
[ -x "$tests" ] || { echo "$tests is not built" >&2; exit 1; }

SHOPFLUIDS_TEST_PICTURES=$PWD/docs/images "$tests" -noLogo -explicit only -class ShopFluids.EndToEnd.Tests.Pictures.PictureMaker
{
  echo "# The pages of the desk"
  echo
  echo "As the demo shop shows them at 1440 x 900, light and dark; taken by deploy/dev/screenshots.sh."
  for light in docs/images/pages/*-light.jpg; do
    name=$(basename "$light" -light.jpg)
    printf '\n## %s\n\n![%s, light](images/pages/%s-light.jpg)\n![%s, dark](images/pages/%s-dark.jpg)\n' "${name//-/ }" "$name" "$name" "$name" "$name"
  done
} > docs/pages.md
ls -l docs/images/*.png docs/images/pages/*.jpg
