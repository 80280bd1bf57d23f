using ShopFluids.Web.Verbs;

return await CommandLine.RunAsync(args, CommandSurroundings.OfThisProcess());
