import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.stowfast.ffi.Engine;
import org.stowfast.ffi.EngineException;
import org.stowfast.ffi.EngineInterface;
import org.stowfast.ffi.LevelRest;
import org.stowfast.ffi.Moment;

/**
 * Calls every function of the bindings once, in the shrunk classes. What the engine answers or refuses is right either
 * way; what counts is that everything crosses: arguments, records, lists, and the engine's own problems.
 */
public class Smoke {
    private static final Moment NOW = new Moment(1_790_000_000_000L, 1_000_000L, "1");

    public static void main(String[] words) throws Exception {
        Engine engine = new Engine(words[0], "en", NOW);
        engine.addDemo("a", NOW);
        engine.openRun("ready_to_drive", NOW);
        expect(!engine.routine(NOW).getSteps().isEmpty(), "a routine has steps");
        expect(!engine.nowPage(NOW).getItems().isEmpty(), "something is in the way");
        expect(!engine.things(NOW).isEmpty() && !engine.gauges(NOW).isEmpty(), "there are things and gauges");
        expect(refusal(engine) instanceof EngineException.NotFound none && none.getId().equals("nothing"), "a refusal says what it is about");

        expect(engine.level(NOW).feel(0.0, 0.1, 9.8).getRest() != null, "a phone that lies still can be set");

        List<String> answered = new ArrayList<>();
        List<String> refused = new ArrayList<>();
        Method[] calls = EngineInterface.class.getMethods();
        // What ends the routine comes last, so that the others find one.
        Arrays.sort(calls, Comparator.comparing((Method call) -> call.getName().equals("closeRun")).thenComparing(Method::getName));
        for (Method call : calls) {
            (answers(engine, call) ? answered : refused).add(call.getName());
        }
        expect(answered.size() > refused.size(), "most calls answer: " + refused);
        engine.close();
        System.out.println("shrunk classes: " + answered.size() + " calls answer, " + refused.size() + " refuse: " + refused);
    }

    private static Exception refusal(Engine engine) {
        try {
            engine.addDemo("nothing", NOW);
            return null;
        } catch (Exception refused) {
            return refused;
        }
    }

    /** Whether the call answered. Anything but an answer and the engine's own problem ends the test. */
    private static boolean answers(Engine engine, Method call) throws Exception {
        for (String text : List.of("ready_to_drive", "a", "fresh.empty", "boiler", "gas", "lead.unplug", "no_12v")) {
            Object[] arguments = Arrays.stream(call.getParameterTypes()).map(type -> argument(type, text)).toArray();
            try {
                call.invoke(engine, arguments);
                return true;
            } catch (InvocationTargetException fault) {
                if (!(fault.getCause() instanceof EngineException)) throw new AssertionError(call.getName(), fault.getCause());
            }
        }
        return false;
    }

    private static Object argument(Class<?> type, String text) {
        if (type == Moment.class) return NOW;
        if (type == String.class) return text;
        if (type == long.class || type == Long.class) return 1L;
        if (type == int.class || type == Integer.class) return 5;
        if (type == double.class || type == Double.class) return 1.0;
        if (type == boolean.class || type == Boolean.class) return true;
        if (type == LevelRest.class) return null;
        if (type.isEnum()) return type.getEnumConstants()[0];
        if (type == byte[].class) return new byte[] {1};
        if (List.class.isAssignableFrom(type)) return List.of();
        throw new AssertionError("no argument of " + type);
    }

    private static void expect(boolean so, String what) {
        if (!so) throw new AssertionError(what);
    }
}
